/** The one file that speaks to SQLite: opens a database file for Kysely. */
import { existsSync, mkdirSync } from "node:fs";
import { dirname } from "node:path";
import { DatabaseSync } from "@photostructure/sqlite";
import { type Dialect, SqliteDialect } from "kysely";

/** What Kysely asks of a database, and the seam where tests put faults in. */
export interface Database {
  prepare(sql: string): {
    readonly reader: boolean;
    all(parameters: readonly unknown[]): unknown[];
    run(parameters: readonly unknown[]): { changes: number | bigint; lastInsertRowid: number | bigint };
    iterate(parameters: readonly unknown[]): IterableIterator<unknown>;
  };
  close(): void;
}

export interface OpenedDatabase {
  readonly dialect: Dialect;
  /** Changes whenever another connection has written. */
  readonly outsideVersion: () => number;
  /** A whole copy beside the file, by its name; returns its path. */
  readonly copyTo: (path: string) => void;
  /** Rows that do not hold what the file promises; empty where all is well. */
  readonly check: () => readonly string[];
}

export interface DatabaseOptions {
  /** Stands between Kysely and the database: where tests put faults in. */
  readonly wrap?: (database: Database) => Database;
  /** How long to wait for another program that writes [ms]. */
  readonly patience?: number;
}

type Parameters = readonly (string | number | bigint | null | Uint8Array)[];

/**
 * Opens or makes the file, with its folder. Throws what the system or SQLite says; `storageProblem` puts it in words.
 * Write-ahead log, every commit on the disk before it is acknowledged.
 */
export function openDatabase(
  file: string,
  { wrap = (database) => database, patience = 3000 }: DatabaseOptions = {},
): OpenedDatabase {
  if (!existsSync(dirname(file))) mkdirSync(dirname(file), { recursive: true });
  const connection = new DatabaseSync(file);
  try {
    for (const pragma of [`busy_timeout=${patience}`, "journal_mode=wal", "synchronous=full", "foreign_keys=on"])
      connection.exec(`pragma ${pragma}`);
  } catch (error) {
    connection.close();
    throw error;
  }
  const database = wrap({
    prepare(text) {
      // A transaction that reads first and writes later must not find the lock gone: it takes it at once.
      const statement = connection.prepare(text === "begin" ? "begin immediate" : text);
      return {
        reader: statement.columns().length > 0,
        all: (parameters) => statement.all(...(parameters as Parameters)),
        run: (parameters) => statement.run(...(parameters as Parameters)),
        iterate: (parameters) => statement.iterate(...(parameters as Parameters)) as IterableIterator<unknown>,
      };
    },
    close: () => {
      // Statements of this binding end with its memory, so closing alone would leave the log behind.
      connection.exec("pragma wal_checkpoint(truncate)");
      connection.close();
    },
  });
  const numberOf = (pragma: string) => Object.values(connection.prepare(`pragma ${pragma}`).get() ?? {})[0];
  return {
    dialect: new SqliteDialect({ database }),
    outsideVersion: () => Number(numberOf("data_version")),
    copyTo: (path) => connection.prepare("vacuum into ?").run(path),
    check: () =>
      connection
        .prepare("pragma quick_check")
        .all()
        .map((row) => String(Object.values(row as object)[0]))
        .filter((line) => line !== "ok"),
  };
}
