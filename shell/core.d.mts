// core.mjs is copied by the build from web/.
export * from '../web/core.mjs';
