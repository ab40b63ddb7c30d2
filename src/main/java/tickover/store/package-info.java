/**
 * What is kept: visit folders, recordings, and the log, on SQLite or PostgreSQL.
 *
 * <p>In: a visit folder. Out: a {@code Visit}, and everything ever learned about it. Read {@code
 * VisitFolder} first, then {@code Log}.
 */
package tickover.store;
