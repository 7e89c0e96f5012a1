import tseslint from 'typescript-eslint';
export default [{files:['**/*.ts'],languageOptions:{parser:tseslint.parser},plugins:{'@typescript-eslint':tseslint.plugin},linterOptions:{reportUnusedDisableDirectives:'off'},rules:{'max-lines-per-function':['error',{max:60,skipBlankLines:true,skipComments:true}],complexity:['error',20]}},{ignores:['server/src/syntax/generated/**']}];
