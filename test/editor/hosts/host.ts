/** A running editor. */
export interface Host {
  /** Where its page with the workspace open is. */
  readonly url: string;
  /** The bytes of a file of the workspace as it is now, by its path; undefined where there is none. */
  readonly read: (file: string) => Promise<Uint8Array | undefined>;
  /** The folder that is open, where it is one of this machine. */
  readonly folder?: string;
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
  /** Whether the workspace's authors are trusted; if not, the editor runs nothing of theirs. */
  readonly trusted: boolean;
  /** Whether the editor's own git is at work. */
  readonly git?: boolean;
}

/** The same calm editor everywhere: nothing that pops up, moves or calls out. */
export const settingsFor = ({ trusted, git = false }: Pick<HostOptions, 'trusted' | 'git'>): Readonly<Record<string, unknown>> => ({
  'workbench.startupEditor': 'none',
  'workbench.tips.enabled': false,
  'workbench.editor.useModal': 'off',
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
  'git.enabled': git,
  'grunt.autoDetect': 'off',
  'gulp.autoDetect': 'off',
  'jake.autoDetect': 'off',
  'npm.autoDetect': 'off',
  'typescript.tsc.autoDetect': 'off',
  'security.workspace.trust.enabled': !trusted,
  'security.workspace.trust.startupPrompt': 'never',
  'security.workspace.trust.banner': 'never',
  'telemetry.telemetryLevel': 'off',
  'update.mode': 'none',
});
