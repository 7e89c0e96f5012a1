import { getDocument, OPS } from 'pdfjs-dist/legacy/build/pdf.mjs';

/** A stroke or a filled shape as an independent reader (pdf.js) sees it: points in millimetres from the sheet’s upper left corner. */
export interface SeenPath {
  /** Runs of points; curves by their control points. */
  readonly runs: readonly (readonly (readonly [number, number])[])[];
  readonly width: number;
  readonly dashes: readonly number[];
  readonly how: 'stroke' | 'fill';
}

export interface SeenPage {
  readonly width: number;
  readonly height: number;
  readonly paths: readonly SeenPath[];
  /** Texts with where they begin, in the order that they are written in. */
  readonly texts: readonly { readonly text: string; readonly x: number; readonly y: number }[];
}

export interface SeenPdf {
  readonly pages: readonly SeenPage[];
  readonly title: string;
  readonly layers: readonly string[];
  readonly outline: readonly string[];
  /** What each page’s texts are in the document’s structure. */
  readonly structure: readonly StructureNode[];
}

export interface StructureNode {
  readonly role: string;
  /** What stands for a picture. */
  readonly alternative: string;
  readonly children: readonly StructureNode[];
}

type Matrix = readonly [number, number, number, number, number, number];
const times = (m: Matrix, n: Matrix): Matrix => [
  m[0] * n[0] + m[2] * n[1], m[1] * n[0] + m[3] * n[1], m[0] * n[2] + m[2] * n[3], m[1] * n[2] + m[3] * n[3], m[0] * n[4] + m[2] * n[5] + m[4], m[1] * n[4] + m[3] * n[5] + m[5],
];
const millimetres = 25.4 / 72;

/** Reads a PDF with pdf.js. */
export async function seen(bytes: Uint8Array): Promise<SeenPdf> {
  const document = await getDocument({ data: Uint8Array.from(bytes), useSystemFonts: false, verbosity: 0 }).promise;
  const pages: SeenPage[] = [];
  const structure: StructureNode[] = [];
  for (let index = 1; index <= document.numPages; index++) {
    const page = await document.getPage(index);
    const { width, height } = page.getViewport({ scale: 1 });
    const { fnArray, argsArray } = await page.getOperatorList();
    const text = await page.getTextContent();
    structure.push(nodeOf(await page.getStructTree() as RawNode | null));
    pages.push({
      width: width * millimetres, height: height * millimetres,
      paths: pathsOf(fnArray, argsArray as readonly unknown[][], height),
      texts: text.items.flatMap((item) => ('str' in item && item.str.trim() !== '' ? [{ text: item.str, x: (item.transform as number[])[4]! * millimetres, y: (height - (item.transform as number[])[5]!) * millimetres }] : [])),
    });
  }
  const layers = await document.getOptionalContentConfig();
  const { info } = await document.getMetadata();
  const outline = (await document.getOutline() as readonly { title: string }[] | null) ?? [];
  const groups = (layers as unknown as { getGroups: () => Readonly<Record<string, { name: string }>> | null }).getGroups();
  await document.destroy();
  return { pages, title: (info as { Title?: string }).Title ?? '', layers: Object.values(groups ?? {}).map(({ name }) => name), outline: outline.map(({ title }) => title), structure };
}

interface RawNode {
  readonly role?: string;
  readonly alt?: string;
  readonly children?: readonly RawNode[];
}
const nodeOf = (raw: RawNode | null): StructureNode => ({ role: raw?.role ?? '', alternative: raw?.alt ?? '', children: (raw?.children ?? []).filter(({ role }) => role !== undefined).map(nodeOf) });

function pathsOf(operators: readonly number[], all: readonly unknown[][], height: number): readonly SeenPath[] {
  const paths: SeenPath[] = [];
  const stack: { matrix: Matrix; width: number; dashes: readonly number[] }[] = [];
  let state: (typeof stack)[number] = { matrix: [1, 0, 0, 1, 0, 0], width: 1, dashes: [] };
  let runs: (readonly [number, number])[][] = [];
  const at = (x: number, y: number): readonly [number, number] => {
    const [a, b, c, d, e, f] = state.matrix;
    return [(a * x + c * y + e) * millimetres, (height - (b * x + d * y + f)) * millimetres];
  };
  const paint = (how: SeenPath['how']): void => {
    const scale = Math.hypot(state.matrix[0], state.matrix[1]) * millimetres;
    paths.push({ runs, how, width: state.width * scale, dashes: state.dashes.map((dash) => dash * scale) });
    runs = [];
  };
  operators.forEach((operator, index) => {
    const args = all[index] ?? [];
    if (operator === OPS.save) stack.push(state);
    else if (operator === OPS.restore) state = stack.pop() ?? state;
    else if (operator === OPS.transform) state = { ...state, matrix: times(state.matrix, args as unknown as Matrix) };
    else if (operator === OPS.setLineWidth) state = { ...state, width: args[0] as number };
    else if (operator === OPS.setDash) state = { ...state, dashes: args[0] as number[] };
    else if (operator === OPS.constructPath) runs = runsOf(args[0] as number[], args[1] as number[], at);
    else if (operator === OPS.stroke || operator === OPS.closeStroke) paint('stroke');
    else if (operator === OPS.fill) paint('fill');
    else if (operator === OPS.endPath) runs = [];
  });
  return paths;
}

function runsOf(steps: readonly number[], numbers: readonly number[], at: (x: number, y: number) => readonly [number, number]): (readonly [number, number])[][] {
  const runs: (readonly [number, number])[][] = [];
  let next = 0;
  const take = (): readonly [number, number] => at(numbers[next++]!, numbers[next++]!);
  for (const step of steps) {
    if (step === OPS.moveTo) runs.push([take()]);
    else if (step === OPS.lineTo) runs.at(-1)?.push(take());
    else if (step === OPS.curveTo) runs.at(-1)?.push(take(), take(), take());
    else if (step === OPS.rectangle) {
      const [x, y, w, h] = [numbers[next++]!, numbers[next++]!, numbers[next++]!, numbers[next++]!];
      runs.push([at(x, y), at(x + w, y), at(x + w, y + h), at(x, y + h)]);
    }
  }
  return runs;
}

/** Width and height of a path’s box, millimetres. */
export function boxOf({ runs }: SeenPath): { readonly x: number; readonly y: number; readonly width: number; readonly height: number } {
  const points = runs.flat();
  const [xs, ys] = [points.map(([x]) => x), points.map(([, y]) => y)];
  const [x, y] = [Math.min(...xs), Math.min(...ys)];
  return { x, y, width: Math.max(...xs) - x, height: Math.max(...ys) - y };
}
