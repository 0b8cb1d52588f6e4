/** First strong isolate, and the end of it (Unicode Standard Annex 9, 2.4). */
const [ISOLATE, ISOLATE_END] = ['\u2068', '\u2069'];
/** Marks, embeddings, overrides and isolates that steer the direction of text: nobody types them as part of a name. */
const STEERING = /[\u061C\u200E\u200F\u202A-\u202E\u2066-\u2069]/gu;
/** Scripts that run from right to left. */
const RIGHT_TO_LEFT =
  /[\p{Script=Hebrew}\p{Script=Arabic}\p{Script=Syriac}\p{Script=Thaana}\p{Script=Nko}\p{Script=Samaritan}\p{Script=Mandaic}\p{Script=Adlam}\p{Script=Hanifi_Rohingya}]/u;

/**
 * What a person typed (a name, a club, a label), to stand in a sentence or beside other text. Characters that would turn what
 * follows are left out, and a text that runs from right to left turns nothing but itself. Any other text comes back as it is.
 */
export function isolated(text: string): string {
  const plain = text.replaceAll(STEERING, '');
  return RIGHT_TO_LEFT.test(plain) ? `${ISOLATE}${plain}${ISOLATE_END}` : plain;
}
