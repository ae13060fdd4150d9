import { section6 } from './checks/section6.js';
import { describeSection } from './describeSection.js';

describeSection(6, section6);
