// Asks again and again while something changes under a person's hand: one question in flight, and after its answer the
// latest that was wanted meanwhile; those between are never asked. An answer to what is no longer wanted is not told.

export class Latest<Wish, Answer> {
  private wanted: { wish: Wish } | null = null;
  private isAsking = false;
  private generation = 0;

  constructor(
    private readonly ask: (wish: Wish) => Promise<Answer>,
    private readonly hear: (answer: Answer, wish: Wish) => void,
    private readonly fail: (error: unknown) => void,
  ) {}

  want(wish: Wish): void {
    this.wanted = { wish };
    if (!this.isAsking) void this.askOn();
  }

  /** Nothing is wanted any more; an answer that is under way is not told. */
  forget(): void {
    this.wanted = null;
    this.generation += 1;
  }

  private async askOn(): Promise<void> {
    this.isAsking = true;
    while (this.wanted !== null) {
      const { wish } = this.wanted;
      this.wanted = null;
      await this.askOne(wish, this.generation);
    }
    this.isAsking = false;
  }

  private async askOne(wish: Wish, generation: number): Promise<void> {
    try {
      const answer = await this.ask(wish);
      if (generation === this.generation) this.hear(answer, wish);
    } catch (error) {
      if (generation === this.generation) this.fail(error);
    }
  }
}
