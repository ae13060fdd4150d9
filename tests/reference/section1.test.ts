import { section1 } from './checks/section1.js';
import { describeSection } from './describeSection.js';

describeSection(1, section1);
