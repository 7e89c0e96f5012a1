/** A running editor. */
export interface Host {
  /** Where its page with the workspace open is. */
  readonly url: string;
  readonly stop: () => Promise<void>;
}

/** The kinds of editor that the tests run in: extensions in a browser worker, and extensions in Node. */
export const hostKinds = ['web', 'node'] as const;
export type HostKind = (typeof hostKinds)[number];

/** What a host is started with. */
export interface HostOptions {
  /** The packed extension. */
  readonly vsix: string;
  /** The folder that is copied and opened. */
  readonly samples: string;
}

/** The same calm editor everywhere: nothing that pops up, moves or calls out. */
export const settings: Readonly<Record<string, unknown>> = {
  'workbench.startupEditor': 'none',
  'workbench.tips.enabled': false,
  'workbench.secondarySideBar.defaultVisibility': 'hidden',
  'workbench.enableExperiments': false,
  'workbench.colorTheme': 'Default Dark Modern',
  'window.commandCenter': false,
  'chat.commandCenter.enabled': false,
  'chat.disableAIFeatures': true,
  'editor.minimap.enabled': false,
  'editor.cursorBlinking': 'solid',
  'editor.accessibilitySupport': 'off',
  'explorer.autoReveal': false,
  'extensions.ignoreRecommendations': true,
  'files.autoSave': 'off',
  'files.simpleDialog.enable': true,
  'git.enabled': false,
  'grunt.autoDetect': 'off',
  'gulp.autoDetect': 'off',
  'jake.autoDetect': 'off',
  'npm.autoDetect': 'off',
  'typescript.tsc.autoDetect': 'off',
  'security.workspace.trust.enabled': false,
  'telemetry.telemetryLevel': 'off',
  'update.mode': 'none',
};
