export declare function findBrowser(): string | undefined;
