/**
 * The desktop console: one person at a running engine, from the vehicle to the report.
 *
 * <p>In: the log, and the lines of a recording that runs. Out: a screen. Views hold controls and
 * nothing else; what they show and what may be done stands in {@code console.model}, which knows no
 * toolkit but its observable values. Read {@code ConsoleWindow} first, then {@code Shell}.
 */
package tickover.console;
