/** A goals file as the first programs wrote it, word for word: format and ids are a promise to those who have one. */
export const GOALS_OF_BEFORE = `{
  "$schema": "./pattern.schema.json",
  "format": "baybook-pattern",
  "version": 1,
  "name": "Kept from before",
  "about": "Invented.",
  "wanted": [
    { "reading": "upper-centre-shift", "aspect": "value", "views": ["face-on"], "checkpoints": ["top"], "clubs": [],
      "from": null, "to": 2.5, "unit": "cm", "words": "Over the ball.", "basis": "invented", "miss": { "low": "", "high": "It moves." } }
  ],
  "tolerances": [{ "reading": "lower-centre-shift", "aspect": "value", "unit": "cm", "within": 2 }],
  "chains": [
    { "name": "Back", "basis": "invented", "leadsTo": "Ground first.", "links": [
      { "reading": "upper-centre-shift", "aspect": "value", "view": "face-on", "checkpoint": "top",
        "miss": "moved-up", "words": "Away." },
      { "reading": "lower-centre-shift", "aspect": "value", "view": "face-on", "checkpoint": "top",
        "miss": "above-range", "words": "With it." }
    ] }
  ]
}
`;
