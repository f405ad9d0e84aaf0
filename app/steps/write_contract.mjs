// Writes src/wire/contract.ts from api/openapi.yaml.
import { writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { format, resolveConfig } from 'prettier';
import { contractText, readContract } from './contract.mjs';

const target = fileURLToPath(new URL('../src/wire/contract.ts', import.meta.url));
const options = await resolveConfig(target);
writeFileSync(target, await format(contractText(readContract()), { ...options, filepath: target }));
