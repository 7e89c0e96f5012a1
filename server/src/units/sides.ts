/** How wide and how high something is, with the words between; a circle is told by its diameter. */
export const sidesOf = <Part>(circle: boolean, width: Part, height: Part): readonly (Part | string)[] => (circle ? ['circle, ', width, ' across'] : [width, ' × ', height]);

/** Width, then height: `9 1/2 in × 7 in`; of a circle `circle, 11 in across`. */
export const sidesText = (circle: boolean, width: string, height: string): string => sidesOf(circle, width, height).join('');
