import type { Tag, TextItem } from '../../pages/sheet.ts';
import { visibleText } from '../escape.ts';

/** An object of the document, as far as a structure needs it. */
export interface Reference {
  readonly data: Record<string, unknown>;
  end: () => void;
}

export interface Element {
  readonly type: string;
  readonly title: string | undefined;
  /** What stands for it where it can’t be seen. */
  readonly alternative: string | undefined;
  /** Where it lies on its page: the left, lower, right and upper end of a rectangle, in points. */
  readonly box: readonly number[] | undefined;
  readonly children: (Element | Content)[];
}

/** A stretch of a page’s content. */
interface Content {
  readonly page: Reference;
  readonly id: number;
}

const isContent = (child: Element | Content): child is Content => 'id' in child;

/** What stands round an element of a tag, outermost first; elements next to one another share the outermost. */
const around: Readonly<Record<Tag, readonly string[]>> = { H1: [], H2: [], P: [], TH: [], TD: [], LI: ['L', 'LI'], Caption: [] };
const typeOf: Readonly<Record<Tag, string>> = { H1: 'H1', H2: 'H2', P: 'P', TH: 'TH', TD: 'TD', LI: 'LBody', Caption: 'Caption' };

/**
 * What a document’s texts are, for whoever has it read aloud or takes it apart (ISO 32000-1, 14.7 and 14.8): headings,
 * paragraphs, lists and tables, each with its places in the pages’ content.
 */
export class Structure {
  readonly #make: (data: object) => Reference;
  readonly #top: Element = { type: 'Document', title: undefined, alternative: undefined, box: undefined, children: [] };
  /** Of each page, the element that each of its stretches is in. */
  readonly #pages: { readonly page: Reference; readonly elements: Element[] }[] = [];
  readonly #groups = new Map<number, Element>();
  readonly #rows = new Map<number, Element>();
  readonly #tables = new Map<number, Element>();
  #parent = this.#top;

  constructor(make: (data: object) => Reference) {
    this.#make = make;
  }

  /** A page begins; with a name it is a section of its own. */
  page(page: Reference, name: string | undefined): void {
    page.data['StructParents'] = this.#pages.length;
    page.data['Tabs'] = 'S';
    this.#pages.push({ page, elements: [] });
    this.#parent = name === undefined ? this.#top : this.#child(this.#top, 'Sect', name);
  }

  /** A picture begins where the page is at. */
  figure(alternative: string, box: Element['box']): Element {
    return this.#child(this.#parent, 'Figure', undefined, { alternative, box });
  }

  /**
   * The operator that begins a text’s stretch of content on the page that has begun last.
   *
   * @param figure the picture that it stands in
   */
  begin({ tag = 'P', group }: Pick<TextItem, 'tag' | 'group'>, figure?: Element): string {
    return this.content(tag === 'Caption' && figure !== undefined ? this.#captionOf(figure) : this.#elementOf(tag, group));
  }

  /** A picture has one, in as many lines as that takes. */
  #captionOf(figure: Element): Element {
    const last = figure.children.at(-1);
    return last !== undefined && !isContent(last) && last.type === 'Caption' ? last : this.#child(figure, 'Caption');
  }

  /** The operator that begins a stretch of content of an element. */
  content(element: Element): string {
    const now = this.#pages.at(-1);
    if (now === undefined) throw new Error('No page has begun.');
    const id = now.elements.length;
    now.elements.push(element);
    element.children.push({ page: now.page, id });
    return `/${element.type} <</MCID ${id}>> BDC`;
  }

  /** A cell with nothing in it. */
  empty({ tag = 'P', group }: Pick<TextItem, 'tag' | 'group'>): void {
    this.#elementOf(tag, group);
  }

  #elementOf(tag: Tag, group: TextItem['group']): Element {
    const known = group && this.#groups.get(group.of);
    if (known !== undefined) return known;
    const parent = group?.row === undefined || group.table === undefined ? this.#wrapped(tag)
      : this.#kept(this.#rows, group.row, () => this.#child(this.#kept(this.#tables, group.table ?? 0, () => this.#child(this.#parent, 'Table')), 'TR'));
    const element = this.#child(parent, typeOf[tag]);
    if (group !== undefined) this.#groups.set(group.of, element);
    return element;
  }

  /** Where an element goes that may stand in a list or with a picture. */
  #wrapped(tag: Tag): Element {
    const [outer, inner] = around[tag];
    if (outer === undefined) return this.#parent;
    const last = this.#parent.children.at(-1);
    const list = outer === 'L' && last !== undefined && !isContent(last) && last.type === outer ? last : this.#child(this.#parent, outer);
    return inner === undefined ? list : this.#child(list, inner);
  }

  #child(parent: Element, type: string, title?: string, { alternative, box }: Partial<Pick<Element, 'alternative' | 'box'>> = {}): Element {
    const element: Element = { type, title, alternative, box, children: [] };
    parent.children.push(element);
    return element;
  }

  #kept(all: Map<number, Element>, key: number, make: () => Element): Element {
    let one = all.get(key);
    if (one === undefined) all.set(key, (one = make()));
    return one;
  }

  /** Writes the structure down; what it returns belongs into the document’s root. */
  finish(): Reference {
    const references = new Map<Element, Reference>();
    const root = this.#make({ Type: 'StructTreeRoot' });
    root.data['K'] = [this.#written(this.#top, root, references)];
    const nums = this.#pages.flatMap(({ elements }, index) => [index, elements.map((element) => references.get(element))]);
    const tree = this.#make({ Nums: nums });
    root.data['ParentTree'] = tree;
    root.data['ParentTreeNextKey'] = this.#pages.length;
    tree.end();
    return root;
  }

  #written(element: Element, parent: Reference, references: Map<Element, Reference>): Reference {
    const { type, title, alternative, box, children } = element;
    const own = this.#make({ S: type, P: parent, ...(title === undefined ? {} : { T: new String(visibleText(title)) }), ...(alternative === undefined ? {} : { Alt: new String(visibleText(alternative)) }), ...(type === 'TH' ? { A: { O: 'Table', Scope: 'Column' } } : {}), ...(box === undefined ? {} : { A: { O: 'Layout', Placement: 'Block', BBox: box } }) });
    for (const child of children) if (isContent(child)) own.data['Pg'] ??= child.page;
    own.data['K'] = children.map((child) => {
      if (!isContent(child)) return this.#written(child, own, references);
      return child.page === own.data['Pg'] ? child.id : { Type: 'MCR', Pg: child.page, MCID: child.id };
    });
    references.set(element, own);
    own.end();
    return own;
  }
}
