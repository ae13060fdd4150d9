import { section4 } from './checks/section4.js';
import { describeSection } from './describeSection.js';

describeSection(4, section4);
