import { section8 } from './checks/section8.js';
import { describeSection } from './describeSection.js';

describeSection(8, section8);
