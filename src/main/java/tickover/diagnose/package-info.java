/**
 * From orders to a finding: part levels, contrasts, bearing evidence, ranking, next test.
 *
 * <p>In: one visit of captures, each with samples and shaft angle. Out: {@code Findings}, which is
 * the class to read first.
 */
package tickover.diagnose;
