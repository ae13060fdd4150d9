import { section9 } from './checks/section9.js';
import { describeSection } from './describeSection.js';

describeSection(9, section9);
