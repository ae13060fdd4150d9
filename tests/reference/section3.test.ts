import { section3 } from './checks/section3.js';
import { describeSection } from './describeSection.js';

describeSection(3, section3);
