// Holds values against the types of web/core.d.mts: every key that a value has is named there,
// every key named there is in the value, and each is of its kind.
import assert from 'node:assert/strict';
import { fileURLToPath } from 'node:url';
import ts from 'typescript';

const file = fileURLToPath(new URL('../../web/core.d.mts', import.meta.url));
const program = ts.createProgram([file], { strict: true, noEmit: true, target: ts.ScriptTarget.ES2022, types: [] });
const checker = program.getTypeChecker();
const source = program.getSourceFile(file);
const module = source && checker.getSymbolAtLocation(source);
assert.ok(module, 'web/core.d.mts is a module');
const exported = new Map(checker.getExportsOfModule(module).map((symbol) => [symbol.name, symbol]));

/** @param {string} name @returns {ts.Type} An exported type. */
export function typeNamed(name) {
  const symbol = exported.get(name);
  assert.ok(symbol, `web/core.d.mts has no type ${name}`);
  return checker.getDeclaredTypeOfSymbol(symbol);
}

/** Names of a type's members. @param {string} name */
export const membersOf = (name) => typeNamed(name).getProperties().map((property) => property.name).sort();

/** @param {ts.Type} type */
const choicesOf = (type) => (type.isUnion() ? type.types : [type]);
/** @param {ts.Type} type */
const itemOf = (type) => checker.getTypeArguments(/** @type {ts.TypeReference} */ (type))[0];
/** @param {ts.Type} type */
const keyed = (type) => checker.getIndexInfoOfType(type, ts.IndexKind.String)?.type;
/** @param {ts.Type} type */
const isObject = (type) => !checker.isArrayType(type) && (type.flags & (ts.TypeFlags.Object | ts.TypeFlags.Intersection)) !== 0;

/** @param {unknown} value @param {ts.Type} type */
function isPlain(value, type) {
  if (value === null) return (type.flags & ts.TypeFlags.Null) !== 0;
  if (typeof value === 'number') return (type.flags & ts.TypeFlags.Number) !== 0 || (type.isNumberLiteral() && type.value === value);
  if (typeof value === 'string') return (type.flags & ts.TypeFlags.String) !== 0 || (type.isStringLiteral() && type.value === value);
  return typeof value === 'boolean' && (type.flags & ts.TypeFlags.BooleanLike) !== 0
    && (checker.typeToString(type) === String(value) || checker.typeToString(type) === 'boolean');
}

/**
 * What of a value is not as the type says, one text each.
 * @param {unknown} value @param {ts.Type} type @param {string} path
 * @param {Set<string>} seen Takes the paths of all that is there and not null.
 * @returns {string[]}
 */
export function faultsOf(value, type, path, seen) {
  if (value !== null) seen.add(path);
  const choices = choicesOf(type);
  if (Array.isArray(value)) {
    const array = choices.find((choice) => checker.isArrayType(choice));
    return array ? value.flatMap((item) => faultsOf(item, itemOf(array), `${path}[]`, seen)) : [`${path} is a list`];
  }
  if (value === null || typeof value !== 'object') {
    return choices.some((choice) => isPlain(value, choice)) ? [] : [`${path} is ${JSON.stringify(value)}, not ${checker.typeToString(type)}`];
  }
  const object = choices.find(isObject);
  if (!object) return [`${path} is an object`];
  const rest = keyed(object);
  const named = new Map(object.getProperties().map((property) => [property.name, property]));
  return [
    ...[...named].filter(([name, { flags }]) => !(flags & ts.SymbolFlags.Optional) && !Object.hasOwn(value, name)).map(([name]) => `${path}.${name} is missing`),
    ...Object.entries(value).flatMap(([name, item]) => {
      const property = named.get(name);
      if (!property && !rest) return [`${path}.${name} is not in the types`];
      return faultsOf(item, property ? checker.getTypeOfSymbol(property) : /** @type {ts.Type} */ (rest), property ? `${path}.${name}` : `${path}.*`, seen);
    }),
  ];
}

/** Paths that a type names, as `seen` takes them. @param {ts.Type} type @param {string} path @returns {string[]} */
export const pathsOf = (type, path) => [...new Set([path, ...choicesOf(type).flatMap((choice) => {
  if (checker.isArrayType(choice)) return pathsOf(itemOf(choice), `${path}[]`);
  if (!isObject(choice)) return [];
  return choice.getProperties().flatMap((property) => pathsOf(checker.getTypeOfSymbol(property), `${path}.${property.name}`));
})])];
