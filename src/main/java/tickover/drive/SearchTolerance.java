package tickover.drive;

/**
 * How far real orders may be from nominal ones. The defaults are common practice, not a standard:
 * belts creep by 0.5 to 2 %, bearing pass rates differ from rolling without slip by 1 to 2 %, and a
 * table's internals are one maker's habit. Shares of independent causes add as root of summed
 * squares.
 *
 * @param beltSlipRatio share by which one belt's pulley may turn slower or faster than the
 *     diameters say
 * @param bearingSlipRatio share by which balls may run off the kinematic rate
 * @param typicalInternalsRatio further share for internals that were looked up, not given
 * @param beltLengthRatio share by which a length computed from tape-measured positions may be off;
 *     a given length that differs from the computed one by more is reported
 */
public record SearchTolerance(
        double beltSlipRatio,
        double bearingSlipRatio,
        double typicalInternalsRatio,
        double beltLengthRatio) {
    /** The tolerances that hold when nothing better is known. */
    public static final SearchTolerance USUAL = new SearchTolerance(0.015, 0.01, 0.015, 0.02);

    public SearchTolerance {
        requireShare("beltSlipRatio", beltSlipRatio);
        requireShare("bearingSlipRatio", bearingSlipRatio);
        requireShare("typicalInternalsRatio", typicalInternalsRatio);
        requireShare("beltLengthRatio", beltLengthRatio);
    }

    private static void requireShare(String name, double value) {
        if (!(value >= 0 && value <= 0.2)) {
            throw new IllegalArgumentException(name + "=" + value + ", need 0 to 0.2");
        }
    }
}
