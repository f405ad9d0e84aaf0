import js from '@eslint/js';
import svelte from 'eslint-plugin-svelte';
import globals from 'globals';
import typescript from 'typescript-eslint';
import svelteConfig from './svelte.config.js';

export default typescript.config(
  { ignores: ['dist/', 'node_modules/'] },
  js.configs.recommended,
  ...typescript.configs.strict,
  ...svelte.configs.recommended,
  ...svelte.configs.prettier,
  { languageOptions: { globals: { ...globals.browser } } },
  { files: ['**/*.mjs', '*.js', '*.ts'], languageOptions: { globals: { ...globals.node } } },
  {
    files: ['**/*.svelte', '**/*.svelte.ts'],
    languageOptions: { parserOptions: { parser: typescript.parser, extraFileExtensions: ['.svelte'], svelteConfig } },
  },
  {
    rules: {
      'no-restricted-globals': ['error', 'fetch', 'localStorage'],
      'svelte/no-navigation-without-resolve': 'off',
      'svelte/no-inline-styles': 'error',
      'svelte/block-lang': ['error', { script: 'ts', style: null }],
    },
  },
  // A style directive is set through the object model, which the content policy allows.
  {
    files: ['src/parts/UsedBar.svelte', 'src/pages/machine/plan/Plan.svelte', 'src/pages/horizon/RowLine.svelte'],
    rules: { 'svelte/no-inline-styles': 'off' },
  },
  {
    files: ['src/wire/**', 'src/worker/worker.ts', 'src/parts/remembered.ts', 'fake/**'],
    rules: { 'no-restricted-globals': 'off' },
  },
);
