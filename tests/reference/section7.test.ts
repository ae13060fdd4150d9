import { section7 } from './checks/section7.js';
import { describeSection } from './describeSection.js';

describeSection(7, section7);
