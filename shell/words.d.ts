// words.js is made by the build from assets/words/en.json.
declare const words: Record<string, string>;
export default words;
