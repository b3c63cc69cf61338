// lesson-entry.js is made by the build from assets/lesson/.
declare const lesson: import('./lesson-steps.js').Lesson;
export default lesson;
