import path from 'node:path';
import { runTests } from '@vscode/test-electron';

// Downloads a desktop editor and runs the smoke suite in it: `npm run test:desktop`, from the top folder.
const root = process.cwd();

runTests({
  extensionDevelopmentPath: root,
  extensionTestsPath: path.join(root, 'build/desktop-test/suite.cjs'),
  launchArgs: [path.join(root, 'test/editor/workspace'), '--disable-extensions', '--disable-workspace-trust'],
}).catch((problem: unknown) => {
  console.error(problem);
  process.exitCode = 1;
});
