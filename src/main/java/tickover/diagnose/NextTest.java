package tickover.diagnose;

import java.util.Objects;

/**
 * A test that the user could do next.
 *
 * @param kind a short word for it, such as {@code belt-off}
 * @param text what to do and what the outcome would mean, with the caution that it needs
 * @param minutes how long it takes, minutes
 * @param expectedGainBits expected information about which component it is, bits
 */
public record NextTest(String kind, String text, double minutes, double expectedGainBits) {
    public NextTest {
        Objects.requireNonNull(kind, "kind");
        Objects.requireNonNull(text, "text");
        if (!(minutes > 0)) {
            throw new IllegalArgumentException("minutes=" + minutes + ", need > 0 min");
        }
        if (!(expectedGainBits >= 0)) {
            throw new IllegalArgumentException(
                    "expectedGainBits=" + expectedGainBits + ", need >= 0 bits");
        }
    }
}
