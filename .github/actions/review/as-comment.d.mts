export const mark: string;
export function asComment(markdown: string, told: string): string;
