package tickover.align;

import java.util.Objects;
import java.util.OptionalDouble;
import tickover.wire.TextUnit;

/**
 * What the numbers of a plain-text probe are worth, as it was asked once and is remembered for the
 * device.
 *
 * @param unit unit to take where the header does not say one; {@link TextUnit#UNKNOWN} if nobody
 *     said
 * @param countMps2 what one count is worth, m/s²; 0 if nobody said
 */
public record TextScale(TextUnit unit, double countMps2) {
    /** Nobody was asked: only a header that names its unit will do. */
    public static final TextScale AS_PRINTED = new TextScale(TextUnit.UNKNOWN, 0);

    private static final double STANDARD_GRAVITY_MPS2 = 9.80665;

    public TextScale {
        Objects.requireNonNull(unit, "unit");
        if (!(countMps2 >= 0 && Double.isFinite(countMps2))) {
            throw new IllegalArgumentException("countMps2=" + countMps2 + ", need >= 0 m/s²");
        }
    }

    /**
     * Returns what 1 is worth under a header.
     *
     * @param printed the header's unit
     * @return m/s², empty if neither the header nor anybody else says
     */
    public OptionalDouble mps2For(TextUnit printed) {
        TextUnit told = printed == TextUnit.UNKNOWN ? unit : printed;
        return switch (told) {
            case MPS2 -> OptionalDouble.of(1);
            case G -> OptionalDouble.of(STANDARD_GRAVITY_MPS2);
            case MILLI_G -> OptionalDouble.of(STANDARD_GRAVITY_MPS2 / 1000);
            case COUNTS -> countMps2 > 0 ? OptionalDouble.of(countMps2) : OptionalDouble.empty();
            case UNKNOWN -> OptionalDouble.empty();
        };
    }
}
