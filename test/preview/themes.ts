/** Colours of usual editor themes, as far as the page uses them (from memory; only their kind matters here). */
export interface Theme {
  readonly kind: 'vscode-light' | 'vscode-dark' | 'vscode-high-contrast' | 'vscode-high-contrast-light';
  readonly colours: Readonly<Record<string, string>>;
}

const light: Record<string, string> = {
  'editor-background': '#ffffff', 'editor-foreground': '#3b3b3b', descriptionForeground: '#3b3b3b', focusBorder: '#005fb8',
  'panel-border': '#e5e5e5', 'textLink-foreground': '#005fb8', 'editorWarning-foreground': '#bf8803', 'editor-lineHighlightBackground': '#eeeeee',
  'list-hoverBackground': '#f2f2f2', 'editorWidget-border': '#c8c8c8', 'dropdown-background': '#ffffff', 'dropdown-foreground': '#3b3b3b', 'dropdown-border': '#cecece',
  'button-secondaryBackground': '#e5e5e5', 'button-secondaryForeground': '#3b3b3b', 'button-secondaryHoverBackground': '#cccccc',
  'panelTitle-activeBorder': '#005fb8', 'panelTitle-activeForeground': '#3b3b3b', 'panelTitle-inactiveForeground': '#3b3b3b',
  'charts-blue': '#1a85ff', 'charts-orange': '#d18616', 'charts-purple': '#652d90', 'charts-green': '#388a34', 'charts-red': '#e51400',
  'editorHoverWidget-background': '#f8f8f8', 'editorHoverWidget-foreground': '#3b3b3b', 'editorHoverWidget-border': '#c8c8c8',
  'inputValidation-warningBackground': '#f6f5d2', 'inputValidation-warningBorder': '#b89500',
};
const dark: Record<string, string> = {
  ...light,
  'editor-background': '#1f1f1f', 'editor-foreground': '#cccccc', descriptionForeground: '#9d9d9d', focusBorder: '#0078d4',
  'panel-border': '#2b2b2b', 'textLink-foreground': '#4daafc', 'editorWarning-foreground': '#cca700', 'editor-lineHighlightBackground': '#282828',
  'list-hoverBackground': '#2a2d2e', 'editorWidget-border': '#454545', 'dropdown-background': '#313131', 'dropdown-foreground': '#cccccc', 'dropdown-border': '#3c3c3c',
  'button-secondaryBackground': '#313131', 'button-secondaryForeground': '#cccccc', 'button-secondaryHoverBackground': '#3c3c3c',
  'panelTitle-activeBorder': '#0078d4', 'panelTitle-activeForeground': '#cccccc', 'panelTitle-inactiveForeground': '#9d9d9d',
  'charts-blue': '#3794ff', 'charts-orange': '#d18616', 'charts-purple': '#b180d7', 'charts-green': '#89d185', 'charts-red': '#f14c4c',
  'editorHoverWidget-background': '#202020', 'editorHoverWidget-foreground': '#cccccc', 'editorHoverWidget-border': '#454545',
  'inputValidation-warningBackground': '#352a05', 'inputValidation-warningBorder': '#b89500',
};
const contrast: Record<string, string> = {
  'editor-background': '#000000', 'editor-foreground': '#ffffff', descriptionForeground: 'rgba(255,255,255,0.7)', focusBorder: '#f38518', contrastBorder: '#6fc3df', contrastActiveBorder: '#f38518',
  'textLink-foreground': '#21a6ff', 'editorWarning-foreground': '#ffd370', 'dropdown-background': '#000000', 'dropdown-foreground': '#ffffff', 'dropdown-border': '#6fc3df',
  'button-secondaryForeground': '#ffffff', 'button-border': '#6fc3df', 'panelTitle-activeBorder': '#6fc3df', 'panelTitle-activeForeground': '#ffffff', 'panelTitle-inactiveForeground': '#ffffff',
  'charts-blue': '#59a4f9', 'charts-orange': '#d18616', 'charts-purple': '#b180d7', 'charts-green': '#89d185', 'charts-red': '#f48771',
  'editorHoverWidget-background': '#0c141f', 'editorHoverWidget-foreground': '#ffffff', 'editorHoverWidget-border': '#6fc3df',
};
const contrastLight: Record<string, string> = {
  'editor-background': '#ffffff', 'editor-foreground': '#292929', descriptionForeground: 'rgba(41,41,41,0.9)', focusBorder: '#006bbd', contrastBorder: '#0f4a85', contrastActiveBorder: '#006bbd',
  'textLink-foreground': '#0f4a85', 'editorWarning-foreground': '#895503', 'dropdown-background': '#ffffff', 'dropdown-foreground': '#292929', 'dropdown-border': '#0f4a85',
  'button-secondaryForeground': '#292929', 'button-border': '#0f4a85', 'panelTitle-activeBorder': '#b5200d', 'panelTitle-activeForeground': '#292929', 'panelTitle-inactiveForeground': '#292929',
  'charts-blue': '#1a85ff', 'charts-orange': '#d18616', 'charts-purple': '#652d90', 'charts-green': '#374e06', 'charts-red': '#b5200d',
  'editorHoverWidget-background': '#ffffff', 'editorHoverWidget-foreground': '#292929', 'editorHoverWidget-border': '#0f4a85',
};

export const themes = {
  light: { kind: 'vscode-light', colours: light },
  dark: { kind: 'vscode-dark', colours: dark },
  'high-contrast': { kind: 'vscode-high-contrast', colours: contrast },
  'high-contrast-light': { kind: 'vscode-high-contrast-light', colours: contrastLight },
} as const satisfies Readonly<Record<string, Theme>>;
export type ThemeName = keyof typeof themes;
