// Rules for every page. What is switched off says why.
export default {
  root: true,
  extends: ['html-validate:recommended'],
  rules: {
    // Line ends and blanks come from the templates; a browser does not care.
    'no-trailing-whitespace': 'off',
    // A job's order and a machine's name make the title as long as they are.
    'long-title': 'off',
    'no-inline-style': 'error',
    'require-sri': 'off',
  },
};
