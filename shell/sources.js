// The page of sources is complete without this: the choice of colours, and the way back to the
// scene that was left.
import { byId } from './dom.js';
import { mountTheme } from './theme.js';

/** Keys of a scene, not the name of a table in this page. */
const SCENE = /^#[\w-]+=/;

if (SCENE.test(location.hash)) byId('back', HTMLAnchorElement).hash = location.hash;
mountTheme(() => {});
byId('theme', HTMLElement).hidden = false;
