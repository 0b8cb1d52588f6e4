/**
 * A place on the screen that answers of the program are for: the open swing, the one beside it, the list of students. What
 * was asked last is what is wanted; an answer to anything before it comes too late and is dropped. Every answer that is
 * waited for goes by here before it changes what is shown.
 */
export interface Place {
  /**
   * Asks, and has the answer put to use if nothing else was asked for here meanwhile. `put` must take everything else from the
   * state as it is then, never as it was before. Answers whether it was put to use. An error of what is not wanted any more
   * is nobody's.
   */
  fill<Answer>(ask: () => Promise<Answer>, put: (answer: Answer) => void): Promise<boolean>;
  /**
   * The same for what stands here and is another in the book now. It takes no other's turn: what is asked for meanwhile is
   * what the coach wants, and is read after the change. Only where that fails is it asked for.
   */
  fillAgain<Answer>(ask: () => Promise<Answer>, put: (answer: Answer) => void): Promise<boolean>;
  /** What is under way is not wanted any more: the place was changed by hand, or left. */
  leave(): void;
  /** For whoever reads again what stands here: answers later whether it still does. What is only asked for stands nowhere yet. */
  holds(): () => boolean;
}

export function createPlace(): Place {
  let standing: object = {};
  /** What stands here, as long as nothing is under way. */
  let asked = standing;
  let underWay: Promise<unknown> = Promise.resolve();

  async function answered<Answer>(
    mine: object,
    ask: () => Promise<Answer>,
    put: (answer: Answer) => void,
  ): Promise<boolean> {
    try {
      const answer = await ask();
      if (asked !== mine) return false;
      standing = mine;
      put(answer);
      return true;
    } catch (error) {
      if (asked !== mine) return false;
      asked = standing;
      throw error;
    }
  }

  function fill<Answer>(ask: () => Promise<Answer>, put: (answer: Answer) => void): Promise<boolean> {
    const mine = {};
    asked = mine;
    const filling = answered(mine, ask, put);
    underWay = filling.catch(() => undefined);
    return filling;
  }

  return {
    fill,
    async fillAgain(ask, put) {
      const before = standing;
      while (asked !== standing) await underWay;
      return standing === before && fill(ask, put);
    },
    leave() {
      asked = {};
      standing = asked;
    },
    holds() {
      const before = standing;
      return () => standing === before;
    },
  };
}
