// What Chromium gives to assistive technology, as text: one line a node, indented, as a person
// would hear it: role, name, value, description, states.

/** @typedef {import('./lesson.mjs').Page} Page */
/**
 * @typedef {object} Node One of Accessibility.getFullAXTree, as far as it is read here.
 * @property {string} nodeId
 * @property {boolean} ignored
 * @property {number} [backendDOMNodeId]
 * @property {{value: string}} [role]
 * @property {{value: string}} [name]
 * @property {{value: string}} [description]
 * @property {{value: string | number}} [value]
 * @property {{name: string, value: {value?: unknown}}[]} [properties]
 * @property {string[]} [childIds]
 */

/** Roles that say nothing by themselves: only what is in them is written. */
const PLAIN = new Set(['generic', 'none', 'LayoutTable', 'LayoutTableRow', 'LayoutTableCell', 'LabelText', 'MenuListPopup']);
/** Their words are those of the node above, already written as its name. */
const NAMED_BY_CONTENT = new Set(['button', 'link', 'heading', 'tab', 'option', 'columnheader', 'rowheader', 'cell', 'DisclosureTriangle', 'Legend', 'term', 'radio', 'checkbox']);
/** Leaves: what Chromium has inside them is how it draws them. */
const LEAVES = new Set(['button', 'textbox', 'slider', 'image', 'combobox', 'spinbutton']);
/** Properties that are heard, and the values at which they are not. */
const HEARD = new Map(Object.entries({ level: [], checked: [], selected: [], expanded: [], pressed: [],
  disabled: [false], invalid: ['false'], required: [false], readonly: [false], live: ['off'], modal: [false] }));

/** @param {Node} node @param {string} [spoken] What a slider says in place of its number. */
function line(node, spoken) {
  const states = (node.properties ?? []).flatMap(({ name, value }) => {
    const quiet = /** @type {unknown[] | undefined} */ (HEARD.get(name));
    if (!quiet || quiet.includes(value.value) || (name === 'level' && node.role?.value !== 'heading')) return [];
    return [value.value === true ? name : `${name}=${value.value}`];
  });
  return [
    node.role?.value,
    node.name?.value && JSON.stringify(node.name.value),
    spoken ? `= “${spoken}”` : node.value?.value !== undefined && node.value.value !== '' && `= ${node.value.value}`,
    node.description?.value && `(${node.description.value})`,
    ...states,
  ].filter(Boolean).join(' ');
}

/** @param {Page} page @returns {Promise<string>} */
export async function tree(page) {
  const devtools = await page.context().newCDPSession(page);
  /** @type {{nodes: Node[]}} */
  const { nodes } = /** @type {any} */ (await devtools.send('Accessibility.getFullAXTree'));
  /** Chromium's tree has a slider's number alone. @type {Map<string, string>} */
  const spoken = new Map();
  for (const { nodeId, role, backendDOMNodeId } of nodes) {
    if (role?.value !== 'slider') continue;
    const { node } = await devtools.send('DOM.describeNode', { backendNodeId: backendDOMNodeId });
    const { attributes = [] } = node;
    spoken.set(nodeId, attributes[attributes.indexOf('aria-valuetext') + 1]);
  }
  await devtools.detach();
  const all = new Map(nodes.map((node) => [node.nodeId, node]));
  /** @type {string[]} */
  const lines = [];

  /** @param {Node} node @param {number} depth @param {string} above Words that were written already. */
  function write(node, depth, above) {
    const role = node.role?.value ?? '';
    const text = node.name?.value.trim() ?? '';
    if (role === 'InlineTextBox' || role === 'ListMarker') return;
    let deeper = depth;
    let said = above;
    if (role === 'StaticText') {
      if (text && !above.includes(text)) lines.push(`${'  '.repeat(depth)}${text}`);
      return;
    }
    if (!node.ignored && !PLAIN.has(role)) {
      lines.push('  '.repeat(depth) + line(node, spoken.get(node.nodeId)));
      deeper += 1;
      said = NAMED_BY_CONTENT.has(role) ? text : '';
      if (LEAVES.has(role)) return;
      // The page's own news at its end is gone or changed a moment later.
      if (role === 'status' && depth === 1) return;
    }
    for (const id of node.childIds ?? []) {
      const child = all.get(id);
      if (child) write(child, deeper, said);
    }
  }
  write(nodes[0], 0, '');
  return `${lines.join('\n')}\n`;
}
