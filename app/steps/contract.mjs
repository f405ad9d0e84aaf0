// Turns api/openapi.yaml into the TypeScript of src/wire/contract.ts: one type a schema, and one table of operations.
// It knows the part of OpenAPI 3.1 that our contract uses, and stops at anything else rather than guess.
import { readFileSync } from 'node:fs';
import { parse } from 'yaml';

export const CONTRACT_PATH = new URL('../../api/openapi.yaml', import.meta.url);
const METHODS = ['get', 'put', 'post', 'delete', 'patch'];

const nameOf = (ref) => ref.split('/').at(-1);
const literals = (values) => values.map((value) => `'${value}'`).join(' | ');

function objectType(schema, indent) {
  if (!schema.properties) {
    const values = schema.additionalProperties;
    return `Record<string, ${values ? typeOf(values, indent) : 'unknown'}>`;
  }
  const required = new Set(schema.required ?? []);
  const members = Object.entries(schema.properties).map(([name, member]) => {
    const note = member.description ? `${indent}  /** ${member.description} */\n` : '';
    return `${note}${indent}  ${name}${required.has(name) ? '' : '?'}: ${typeOf(member, indent + '  ')};\n`;
  });
  return `{\n${members.join('')}${indent}}`;
}

function plainType(type, schema, indent) {
  switch (type) {
    case 'string':
    case 'boolean':
    case 'null':
      return type;
    case 'number':
    case 'integer':
      return 'number';
    case 'array': {
      const items = typeOf(schema.items, indent);
      return /[ {]/.test(items) ? `Array<${items}>` : `${items}[]`;
    }
    case 'object':
      return objectType(schema, indent);
    default:
      throw new Error(`the contract uses a type that contract.mjs does not know: ${JSON.stringify(schema)}`);
  }
}

function typeOf(schema, indent) {
  if (schema.$ref) return nameOf(schema.$ref);
  if (schema.enum) return literals(schema.enum);
  if (schema.oneOf) return schema.oneOf.map((choice) => typeOf(choice, indent)).join(' | ');
  return [schema.type]
    .flat()
    .map((type) => plainType(type, schema, indent))
    .join(' | ');
}

function schemaText(name, schema) {
  const note = schema.description ? `/** ${schema.description.trim()} */\n` : '';
  if (schema.type === 'object' && schema.properties)
    return `${note}export interface ${name} ${objectType(schema, '')}\n`;
  return `${note}export type ${name} = ${typeOf(schema, '')};\n`;
}

function operationRows(paths) {
  return Object.entries(paths).flatMap(([path, item]) =>
    METHODS.filter((method) => item[method]).map(
      (method) =>
        `  ${item[method].operationId}: { method: '${method.toUpperCase()}', path: '${path}', permission: '${item[method]['x-permission']}' },\n`,
    ),
  );
}

/** The words that a schema allows, for tests: {TaskState: ["in hand", ...], "Doing.state": [...]}. */
export function enumsOf(contract) {
  /** @type {Record<string, string[]>} */
  const found = {};
  for (const [name, schema] of Object.entries(contract.components.schemas)) {
    if (schema.enum) found[name] = schema.enum;
    for (const [member, inner] of Object.entries(schema.properties ?? {})) {
      if (inner.enum) found[`${name}.${member}`] = inner.enum;
    }
  }
  return found;
}

export function readContract() {
  return parse(readFileSync(CONTRACT_PATH, 'utf8'));
}

/** The whole text of src/wire/contract.ts, before prettier. */
export function contractText(contract) {
  const schemas = Object.entries(contract.components.schemas).map(([name, schema]) => schemaText(name, schema));
  return (
    '// Written from api/openapi.yaml by `npm run wire`; a test compares the two. Change the contract, not this file.\n\n' +
    schemas.join('\n') +
    `\nexport const operations = {\n${operationRows(contract.paths).join('')}} as const;\n`
  );
}
