import { section5 } from './checks/section5.js';
import { describeSection } from './describeSection.js';

describeSection(5, section5);
