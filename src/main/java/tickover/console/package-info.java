/**
 * The desktop console. Empty until it is built.
 *
 * <p>In: a running session. Out: a screen.
 */
package tickover.console;
