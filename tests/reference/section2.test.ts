import { section2 } from './checks/section2.js';
import { describeSection } from './describeSection.js';

describeSection(2, section2);
