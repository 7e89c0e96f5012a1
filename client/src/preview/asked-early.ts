/** An answer that is asked for before whoever needs it is there: it serves the same question once, and nobody after that. */
export class AskedEarly<Question, Answer> {
  private kept: { readonly question: string; readonly answer: Promise<Answer | undefined> } | undefined;

  /** @param answer where it comes to nothing it serves nobody: who asks then learns why */
  constructor(question: Question, answer: Promise<Answer>) {
    this.kept = { question: JSON.stringify(question), answer: answer.catch(() => undefined) };
  }

  /** Undefined where another question was asked, or this is not the first. */
  async take(question: Question): Promise<Answer | undefined> {
    const { kept } = this;
    this.kept = undefined;
    return kept?.question === JSON.stringify(question) ? kept.answer : undefined;
  }
}
