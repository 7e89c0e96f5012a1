import { previewFaults } from './preview-faults.ts';
import { noticed } from './notice.ts';

noticed(previewFaults);
