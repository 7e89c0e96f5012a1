import { fetchHosts } from './all.ts';

// Brings the editors, and no more: `npm run editors`.
await fetchHosts();
