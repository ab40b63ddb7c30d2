/**
 * The command line.
 *
 * <p>In: arguments. Out: text or one JSON document, and an exit code. Read {@code TickoverCommand}
 * first.
 */
package tickover.cli;
