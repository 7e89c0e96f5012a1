// The rooms of server/src, from the ground up: each may import from itself and from those that it names. ESLint
// (eslint.config.mjs) and the tidiness test both read this list.

/** @type {Readonly<Record<string, readonly string[]>>} */
const above = {
  units: [],
  problems: [],
  geometry: ['units'],
  syntax: ['units', 'problems'],
  lay: ['units', 'geometry'],
  workers: [],
  model: ['units', 'problems', 'geometry', 'syntax'],
};
const model = ['model', ...above.model];
const workspace = ['workspace', ...model];
const buying = ['buying', 'lay', ...model];
const table = ['table', 'buying', 'lay', ...workspace];
const pages = ['pages', ...table];
const compare = ['compare', ...table];
const formats = ['formats', 'compare', ...pages];
const preview = ['preview', ...formats];
const planner = ['planner', 'workers', ...preview];

/** The core: pure, the same in Node and in a browser. */
export const core = {
  ...above,
  workspace: model,
  buying: ['lay', ...model],
  table: table.slice(1),
  pages: table,
  compare: compare.slice(1),
  formats: formats.slice(1),
  preview: formats,
  planner: ['workers', ...preview],
  language: preview,
};

/** What Node and browsers give: files and threads. The edges share it, and the core doesn't know of it. */
export const platforms = {
  platform: ['workers', 'problems'],
};

/** The edges may import all of the core but not one another, and nothing imports them. */
export const edges = {
  lsp: ['language', 'platform', ...planner],
  cli: ['language', 'platform', ...planner],
};

/** @type {Readonly<Record<string, readonly string[]>>} */
export const rooms = { ...core, ...platforms, ...edges };
