import { takesFromEdge } from '../model/piece/darts.ts';
import { functions } from '../model/formulas/evaluate.ts';
import type { PieceShape } from '../model/piece/piece.ts';
import { taskName } from '../model/work/work-step.ts';
import type { Snapshot } from '../workspace/snapshot.ts';
import { aboutEdge, aboutName } from './completion-documentation.ts';
import { simple, type Item } from './completion-items.ts';
import type { TextContext } from './context.ts';

/** The names of the pattern, by what they can be used for. */
export class Names {
  readonly snapshot: Snapshot;
  readonly #context: TextContext;

  constructor(snapshot: Snapshot, context: TextContext) {
    this.snapshot = snapshot;
    this.#context = context;
  }

  of(kind: 'material' | 'piece' | 'seam' | 'supply' | 'thing', commit: readonly string[] = []): readonly Item[] {
    return [...this.snapshot.pattern.world.names.values()].flatMap(({ tree }) =>
      tree.kind === kind ? [simple(tree.name.text, kind, tree.title?.value ?? '', aboutName(this.snapshot, tree.name.text), commit)] : []);
  }

  values(only?: 'count'): readonly Item[] {
    return [...this.snapshot.pattern.world.names.values()].flatMap(({ tree, text }) =>
      tree.kind === 'value' && (only === undefined || tree.of === only)
        ? [simple(tree.name.text, 'value', `${tree.of} = ${text.slice(tree.value.start, tree.value.end)}`, aboutName(this.snapshot, tree.name.text))] : []);
  }

  /** What a formula may begin with. */
  formula(): readonly Item[] {
    return [
      ...this.values(),
      ...this.of('piece', ['.']), ...this.of('supply', ['.']), ...this.of('thing', ['.']), ...this.of('material', ['.']), ...this.of('seam', ['.']),
      ...Object.entries(functions).map(([name, { usage, doc }]): Item => ({
        label: name, kind: 'function', insert: `${name}($1)`, isSnippet: true, detail: usage, documentation: doc, commit: [],
      })),
      simple('pi', 'value', 'the circle’s number'),
    ];
  }

  shape(name = this.#context.owner): PieceShape | undefined {
    return name === undefined ? undefined : this.snapshot.pattern.shape(name, new Map());
  }

  edges(name?: string): readonly Item[] {
    const shape = this.shape(name);
    const edges = shape?.drawn.edges.map((edge) => edge.name) ?? [];
    return (edges.length > 0 ? edges : ['top', 'bottom', 'left', 'right']).filter((edge) => !edge.endsWith('_twin'))
      .map((edge) => simple(edge, 'edge', '', aboutEdge(this.snapshot, shape, edge)));
  }

  /** The lines of a piece, from its text where its shape can't be worked out. */
  lines(name = this.#context.owner, use?: string): readonly Item[] {
    const shape = this.shape(name);
    if (shape !== undefined) return shape.lines.filter((line) => use === undefined || line.use === use).map((line) => simple(line.name, 'line', line.use));
    const tree = this.snapshot.pattern.world.names.get(name ?? '')?.tree;
    return tree?.kind !== 'piece' ? [] : tree.body.statements.flatMap((statement) =>
      statement.kind === 'line' && (use === undefined || statement.use === use) ? [simple(statement.name.text, 'line', statement.use)] : []);
  }

  /** What no step does yet: seams and supplies, and pieces for their layers and edges. */
  undone(): readonly Item[] {
    const done = this.#done();
    return [...this.of('seam'), ...this.of('supply')].filter(({ label }) => !done.has(label)).concat(this.of('piece', ['.']));
  }

  /** Of a piece: its layers, and the edges of which the spec says what becomes of them. */
  undoneOf(piece: string): readonly Item[] {
    const done = this.#done();
    const found = this.snapshot.pattern.resolve(new Map()).pieces.find(({ shape }) => shape.name === piece);
    const layers = found?.cuts.some(({ layer }) => layer !== undefined) === true ? [simple('layers', 'word', 'all that goes on its cloth')] : [];
    const folds = found?.folded === undefined ? [] : [simple('folded', 'word', 'its folds')];
    const edges = [...(found?.finishes ?? [])].filter(([, { kind }]) => kind !== 'raw').map(([edge, { kind }]) => simple(edge, 'edge', kind));
    const darts = (found?.shape.lines ?? []).filter(takesFromEdge).map(({ name, isDart }) => simple(name, 'line', isDart === true ? 'dart' : 'pleat'));
    const stitches = (found?.shape.stitchRows ?? []).map(({ name, kind }) => simple(name, 'line', kind === 'quilt' ? 'quilting' : 'topstitching'));
    return [...layers, ...folds, ...darts, ...edges, ...stitches].filter(({ label }) => !done.has(`${piece}.${label}`));
  }

  #done(): ReadonlySet<string> {
    return new Set(this.snapshot.pattern.resolve(new Map()).steps.flatMap(({ tasks }) => tasks.map(taskName)));
  }

  /** The edges of a piece, those first of which the spec says nothing yet. */
  edgesToSew(name: string): readonly Item[] {
    const { seams, pieces } = this.snapshot.pattern.resolve(new Map());
    const sewn = seams.flatMap(({ first, second }) => [...first.stretches, ...second.stretches]).filter(({ piece }) => piece.name === name).map(({ edge }) => edge);
    const said = new Set([...sewn, ...(pieces.find(({ shape }) => shape.name === name)?.finishes.keys() ?? [])]);
    const edges = this.edges(name);
    return [...edges.filter(({ label }) => !said.has(label)).map((edge) => ({ ...edge, detail: 'not sewn yet' })), ...edges.filter(({ label }) => said.has(label))];
  }

  choices(): readonly Item[] {
    return [...this.snapshot.pattern.choices].map(([name, options]) => simple(name, 'choice', options.join(' or ')));
  }

  options(choice?: string): readonly Item[] {
    const { choices } = this.snapshot.pattern;
    const from = choice === undefined ? [...choices] : [[choice, choices.get(choice) ?? []] as const];
    return from.flatMap(([name, options]) => options.map((option) => simple(option, 'option', name)));
  }
}
