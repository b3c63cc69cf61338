// study.mjs is copied by the build from web/.
export * from '../web/study.mjs';
