// Lint of the page's scripts and of the tests in JavaScript. Page scripts share one scope: what one file uses of another is for
// `tsc` to check.
import js from "@eslint/js";
import globals from "globals";

const everywhere = {
  ...js.configs.recommended.rules,
  "max-lines": ["error", 500],
  "max-lines-per-function": ["error", { max: 59, skipComments: true }],
  curly: ["error", "multi-line"],
  eqeqeq: "error",
  "no-shadow": "error",
  "no-throw-literal": "error",
  "no-var": "error",
  "object-shorthand": "error",
  "prefer-const": "error",
};

const scripts = (files, names) => ({
  files,
  // The oldest browsers meant (decisions/2026-11-27-oldest-browsers.md) read the language of 2022, but for what is named here.
  languageOptions: { ecmaVersion: 2022, sourceType: "script", globals: names },
  rules: {
    ...everywhere,
    "no-undef": "off",
    "no-unused-vars": "off",
    "no-redeclare": "off",
    "no-restricted-syntax": [
      "error",
      { selector: "StaticBlock", message: "Safari reads it from 16.4 on." },
      { selector: "Literal[regex.flags=/v/]", message: "Safari reads it from 17 on." },
      { selector: "Literal[regex.pattern=/\\(\\?<[=!]/]", message: "Safari reads it from 16.4 on." },
    ],
  },
});

export default [
  scripts(["src/handout/engine/*.js", "src/handout/page/script/*.js", "src/desk/script/*.js"], globals.browser),
  scripts(["src/handout/engine/worker.js", "src/handout/page/installed/*.js"], globals.worker),
  {
    // Where the page's script cannot be read.
    files: ["src/handout/page/unfold.js"],
    languageOptions: { ecmaVersion: 5, sourceType: "script", globals: globals.browser },
    rules: js.configs.recommended.rules,
  },
  {
    files: ["tests/**/*.mjs"],
    languageOptions: {
      ecmaVersion: 2023,
      sourceType: "module",
      globals: { ...globals.node, ...globals.browser },
    },
    // A check of a browser holds what the browser is to do.
    rules: { ...everywhere, "max-lines-per-function": "off", "no-shadow": "off", "no-undef": "off" },
  },
];
