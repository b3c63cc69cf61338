// words.js is made by the build from assets/words/.
declare const words: Record<string, string>;
export default words;
