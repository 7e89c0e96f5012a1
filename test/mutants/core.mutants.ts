import { coreFaults } from './core-faults.ts';
import { noticed } from './notice.ts';

noticed(coreFaults);
