import { expect, it } from 'vitest';
import { legendBlocks, rolesOf } from '../../server/src/pages/legend.ts';
import { templateSet } from '../../server/src/pages/pages.ts';
import type { Item } from '../../server/src/pages/sheet.ts';
import { drawTemplate } from '../../server/src/pages/template-item.ts';
import { optionsFor } from '../support/pages.ts';
import { pattern } from '../support/spec.ts';

/** Of each template, how many heads its arrows along the grain have; which arrows the legend explains. */
function arrows(cuts: string): { readonly heads: readonly number[]; readonly explained: readonly string[] } {
  const { templates, headline } = templateSet(pattern(`piece a "A" {\n  outline rectangle 4 by 6\n  corner all round 1\n  line core = inset 1/2\n  ${cuts}\n}`).pattern, new Map(), optionsFor());
  const heads = (items: readonly Item[]): number => items.reduce((sum, item) => sum + (item.kind === 'group' ? heads(item.items) : Number(item.kind === 'fill' && item.role === 'grain')), 0);
  return { heads: templates.map((template) => heads(drawTemplate(template, headline).items)), explained: [...rolesOf(templates)].filter((one) => one === 'grain' || one === 'one way') };
}

it('an arrow along the grain is on templates of what has one, and on no others', () => {
  expect(arrows('cut 1 cloth')).toEqual({ heads: [2], explained: ['grain'] });
  // Foam may lie any way, as the cutting table has it.
  expect(arrows('cut 1 foam')).toEqual({ heads: [0], explained: [] });
  expect(arrows('cut 1 cloth\n  cut 1 foam along core')).toEqual({ heads: [2, 0], explained: ['grain'] });
  expect(arrows('cut 1 cloth\n  cut 1 foam')).toEqual({ heads: [2], explained: ['grain'] });
});

it('an arrow with one head is explained as one', () => {
  expect(arrows('cut 1 nap')).toEqual({ heads: [1], explained: ['one way'] });
  expect(arrows('this way up\n  cut 1 cloth\n  cut 1 cloth along core')).toEqual({ heads: [1, 1], explained: ['one way'] });
  expect(arrows('cut 1 nap\n  cut 1 cloth along core')).toEqual({ heads: [1, 2], explained: ['one way', 'grain'] });
});

it('the legend draws either arrow with its heads', () => {
  const heads = (items: readonly Item[]): number => items.reduce((sum, item) => sum + (item.kind === 'group' ? heads(item.items) : Number(item.kind === 'fill')), 0);
  const drawn = (...roles: readonly ('grain' | 'one way')[]): number => heads(legendBlocks(new Set(roles), [])[1].items);
  expect([drawn('grain'), drawn('one way'), drawn('grain', 'one way')]).toEqual([2, 1, 3]);
});
