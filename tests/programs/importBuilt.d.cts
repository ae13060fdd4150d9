/** Imports a built module by its address as Node does, untouched by the test runner. */
export declare function importBuilt(url: string): Promise<unknown>;
