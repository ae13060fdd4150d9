import { section10 } from './checks/section10.js';
import { describeSection } from './describeSection.js';

describeSection(10, section10);
