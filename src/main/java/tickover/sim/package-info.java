/**
 * A physical scenario simulator: engine, belt drive, faults, transfer paths, probe, speed sources.
 *
 * <p>In: a scenario and a seed. Out: captures as a workshop would hand them in, and the truth
 * behind them. It shares no code with the analysis that it checks, other than the drive
 * description.
 */
package tickover.sim;
