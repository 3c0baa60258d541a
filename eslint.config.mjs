import eslint from '@eslint/js';
import { defineConfig } from 'eslint/config';
import tseslint from 'typescript-eslint';

export default defineConfig(
  { ignores: ['**/dist/', '**/node_modules/', '.data/', 'libs/api-client/src/schema.ts'] },
  eslint.configs.recommended,
  ...tseslint.configs.strictTypeChecked,
  {
    languageOptions: {
      parserOptions: {
        project: ['./tsconfig.lint.json'],
        tsconfigRootDir: import.meta.dirname,
      },
    },
    rules: {
      '@typescript-eslint/switch-exhaustiveness-check': [
        'error',
        { considerDefaultExhaustiveForUnions: true },
      ],
      '@typescript-eslint/restrict-template-expressions': [
        'error',
        { allowNumber: true, allowBoolean: true },
      ],
      // Nest modules and marker classes have no members.
      '@typescript-eslint/no-extraneous-class': ['error', { allowWithDecorator: true }],
      '@typescript-eslint/no-unnecessary-condition': ['error', { allowConstantLoopConditions: true }],
      '@typescript-eslint/no-unused-vars': ['error', { ignoreRestSiblings: true, argsIgnorePattern: '^_' }],
      'no-console': 'error',
    },
  },
  {
    // DTO classes carry decorators and fields only: a plain object of the same fields is one.
    files: ['apps/**', 'tests/**'],
    rules: {
      '@typescript-eslint/no-misused-spread': 'off',
      '@typescript-eslint/no-unsafe-class-instance-assignment': 'off',
    },
  },
  {
    files: ['**/*.mjs', '**/*.cjs'],
    languageOptions: {
      globals: Object.fromEntries(
        [
          'process',
          'console',
          'URL',
          'Buffer',
          'setTimeout',
          'clearTimeout',
          'setInterval',
          'clearInterval',
          'fetch',
          'AbortSignal',
          'performance',
          'module',
          'require',
        ].map((name) => [name, 'readonly']),
      ),
    },
    rules: { 'no-console': 'off' },
  },
  { files: ['**/*.cjs'], ...tseslint.configs.disableTypeChecked },
  { files: ['bench/**', 'seed/**', 'scripts/**'], rules: { 'no-console': 'off' } },
);
