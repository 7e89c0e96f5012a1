// The house rules that a machine can hold: types, the direction of imports, and where editors, files and processes may
// be spoken of.
import { fileURLToPath } from 'node:url';
import importX from 'eslint-plugin-import-x';
import tseslint from 'typescript-eslint';
import { edges, platforms, rooms } from './layers.mjs';

const root = fileURLToPath(new URL('..', import.meta.url));

const direction = Object.entries(rooms).map(([room, allowed]) => ({
  target: `server/src/${room}`,
  from: 'server/src',
  except: [room, ...allowed],
  message: `${room} may only import ${allowed.length === 0 ? 'itself' : allowed.join(', ')}.`,
}));

export default tseslint.config(
  { ignores: ['dist/**', 'build/**', '.editors/**', 'node_modules/**', 'server/src/syntax/generated/**', '.config/**'] },
  {
    files: ['**/*.ts', '**/*.mts'],
    extends: [tseslint.configs.strictTypeChecked],
    plugins: { 'import-x': importX },
    languageOptions: { parserOptions: { project: `${root}tsconfig.json`, tsconfigRootDir: root } },
    settings: { 'import-x/resolver': { typescript: { project: `${root}tsconfig.json` } } },
    rules: {
      'import-x/no-restricted-paths': ['error', { basePath: root, zones: [...direction, { target: 'client', from: 'server/src/cli' }] }],
      '@typescript-eslint/restrict-template-expressions': ['error', { allowNumber: true }],
      '@typescript-eslint/consistent-type-imports': 'error',
      '@typescript-eslint/no-unused-vars': ['error', { argsIgnorePattern: '^_', ignoreRestSiblings: true, varsIgnorePattern: '^_$' }],
      '@typescript-eslint/no-non-null-assertion': 'error',
      // `return report(…)` from what gives undefined is how a fault ends a computation.
      '@typescript-eslint/no-confusing-void-expression': 'off',
      '@typescript-eslint/no-unnecessary-type-parameters': 'off',
      '@typescript-eslint/no-unnecessary-condition': ['error', { allowConstantLoopConditions: true }],
      '@typescript-eslint/unified-signatures': 'off',
      '@typescript-eslint/no-unnecessary-type-arguments': 'off',
      // A callback that may answer, or say nothing.
      '@typescript-eslint/no-invalid-void-type': 'off',
      eqeqeq: 'error',
    },
  },
  {
    files: ['server/src/**/*.ts'],
    ignores: Object.keys({ ...platforms, ...edges }).map((room) => `server/src/${room}/**`),
    rules: {
      'no-restricted-imports': ['error', { patterns: [{ group: ['node:*', 'vscode*', 'fs', 'path'], message: 'The core knows nothing of files, processes and editors.' }] }],
      'no-restricted-globals': ['error', 'process', 'window', 'document', 'fetch', 'setTimeout', 'setInterval'],
      'no-restricted-properties': ['error', { object: 'Math', property: 'random' }, { object: 'Date', property: 'now' }],
    },
  },
  {
    files: ['server/src/cli/**/*.ts', 'server/src/platform/**/*.ts'],
    rules: { 'no-restricted-imports': ['error', { patterns: ['vscode*'] }] },
  },
  {
    // Loops over typed arrays, most of them the planners' innermost ones: every index is in range by construction.
    files: [
      'server/src/lay/polygons/field.ts',
      ...['beam', 'beam-lists'].map((name) => `server/src/lay/rectangles/${name}.ts`),
    ],
    rules: { '@typescript-eslint/no-non-null-assertion': 'off' },
  },
  {
    // A function that can be taken in at once.
    files: ['client/**/*.ts', 'server/src/**/*.ts'],
    rules: {
      'max-lines-per-function': ['error', { max: 60, skipBlankLines: true, skipComments: true }],
      complexity: ['error', 20],
    },
  },
  {
    // The innermost loop of laying out: a call within it costs time.
    files: ['server/src/lay/polygons/field.ts'],
    rules: { 'max-lines-per-function': 'off', complexity: 'off' },
  },
  {
    files: ['test/**/*.ts', 'test/**/*.mts'],
    rules: {
      '@typescript-eslint/no-non-null-assertion': 'off',
      // Matchers, JSON and libraries without types give what a test then looks at.
      '@typescript-eslint/no-unsafe-argument': 'off',
      '@typescript-eslint/no-unsafe-assignment': 'off',
      '@typescript-eslint/no-unsafe-call': 'off',
      '@typescript-eslint/no-unsafe-member-access': 'off',
      '@typescript-eslint/no-unsafe-return': 'off',
      '@typescript-eslint/restrict-plus-operands': 'off',
      '@typescript-eslint/consistent-type-imports': ['error', { disallowTypeAnnotations: false }],
      '@typescript-eslint/no-unsafe-class-instance-assignment': 'off',
    },
  },
);
