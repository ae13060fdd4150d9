/** A module that may be in a log. */
export interface KnownModule {
  readonly id: string;
  readonly builder?: string;
  readonly design?: string;
  /** Balls its basket holds; levels may then be written in balls. */
  readonly basket?: number;
  /** Lies on the side table until it is put in. */
  readonly spare?: boolean;
}
