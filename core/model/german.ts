import program from '../../resources/languages/de/program.json' with { type: 'json' };

/** What the sentences of the program are in German, by the sentence. One file a room. */
export const GERMAN: Readonly<Record<string, string>> = { ...program };
