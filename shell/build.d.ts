// build.js is made by the build: a short hash of all the other files of the site.
declare const build: string;
export default build;
