import { verifyLay, type Fault } from '../lay/verify/verify.ts';
import type { MaterialPlan } from './plan.ts';

const words = (fault: Fault): string =>
  'placements' in fault ? `${fault.kind}, pieces ${fault.placements.map((index) => index + 1).join(' and ')}` : fault.kind;

/** What is wrong with the lays of a plan, each in words; none should ever be. */
export function planFaults({ need, widths }: MaterialPlan): readonly string[] {
  return widths.flatMap((width) => width.lays.flatMap(({ problem, lay }, index) =>
    verifyLay(problem, lay).map((fault) => `${need.material.title}, lay ${index + 1}: ${words(fault)}`)));
}
