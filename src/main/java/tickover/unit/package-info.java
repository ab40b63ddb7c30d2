/**
 * Value types and conversions that every room shares.
 *
 * <p>In: nothing. Out: speeds, level ratios. Read {@code Rpm} first.
 */
package tickover.unit;
