/*
 * Imports a built module as Node does. Imported from a test it would be transformed by the test runner first, which for the
 * bundles takes seconds.
 */
module.exports = { importBuilt: (url) => import(url) };
