/**
 * The accessory drive: what turns, how fast, which way, and which orders it can make.
 *
 * <p>In: a {@code Vehicle} as it was measured. Out: a {@code DriveModel} with the orders of every
 * part, belt geometry, and which lines cannot be told apart. Read {@code Vehicle} first, then
 * {@code DriveModel}.
 */
package tickover.drive;
