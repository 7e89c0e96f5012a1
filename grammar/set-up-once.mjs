// A plugin for the generator of the parser. A parser as it is generated makes its constants and functions anew at every
// call, which for declarations of a few lines costs as much as reading them. They hang on nothing, so this makes them
// once; what a call changes is set at its beginning. No call begins within another.
import ts from 'typescript';

export const setUpOnce = {
  use(config) {
    config.passes.generate.push((ast) => {
      ast.code = changed(ast.code.toString());
    });
  },
};

/** Takes the statements of `peg$parse` apart into those of all calls and those of each. */
function changed(code) {
  const file = ts.createSourceFile('parser.js', code, ts.ScriptTarget.ES2022, true, ts.ScriptKind.JS);
  const parse = file.statements.find((statement) => ts.isFunctionDeclaration(statement) && statement.name?.text === 'peg$parse');
  if (parse?.body === undefined) throw new Error('The generated parser has no function peg$parse');
  const once = [];
  const each = [];
  let runs = false;
  for (const statement of parse.body.statements) {
    const variables = ts.isVariableStatement(statement) ? statement.declarationList : undefined;
    runs ||= isRun(statement);
    if (runs || !(variables !== undefined || ts.isFunctionDeclaration(statement))) each.push(statement.getText());
    else if (variables !== undefined && changesByCall(variables)) {
      for (const { name, initializer } of variables.declarations) {
        once.push(`let ${name.getText()};`);
        each.push(`${name.getText()} = ${initializer?.getText() ?? 'undefined'};`);
      }
    } else once.push(statement.getText());
  }
  if (!runs) throw new Error('The generated parser has no call of its first rule');
  const parameters = parse.parameters.map(({ name }) => name.getText());
  return `${code.slice(0, parse.getStart())}const peg$parse = (() => {
let ${parameters.join(', ')};
${once.join('\n')}
return (${parameters.map((name) => `given_${name}`).join(', ')}) => {
${parameters.map((name) => `${name} = given_${name};`).join('\n')}
${each.join('\n')}
};
})();${code.slice(parse.end)}`;
}

/** Where reading begins: `peg$result = peg$startRuleFunction()`. */
const isRun = (statement) => ts.isExpressionStatement(statement) && ts.isBinaryExpression(statement.expression) && ts.isCallExpression(statement.expression.right);

/** Whether variables are written to, hang on what a call is given, or hold a list that grows. */
function changesByCall(list) {
  if ((list.flags & ts.NodeFlags.Const) === 0) return true;
  return list.declarations.some(({ initializer }) => initializer !== undefined && (ts.isArrayLiteralExpression(initializer) || /\boptions\b/.test(initializer.getText())));
}
