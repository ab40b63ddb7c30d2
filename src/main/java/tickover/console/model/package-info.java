/**
 * What the console's screens show and what may be done on them, without a screen.
 *
 * <p>In: the log and {@code session}. Out: observable values, sentences, and the rules between
 * them. Used on the screen's thread alone; slow work goes through {@code Errands}. Read {@code
 * ConsoleModel} first.
 */
package tickover.console.model;
