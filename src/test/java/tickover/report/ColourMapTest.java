package tickover.report;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;

class ColourMapTest {
    private static final int STEPS = 100;

    /** CIE lightness from sRGB, the textbook way and apart from the table's own conversion. */
    private static double lightness(int rgb) {
        double y =
                0.2126729 * linear(rgb >> 16 & 255)
                        + 0.7151522 * linear(rgb >> 8 & 255)
                        + 0.0721750 * linear(rgb & 255);
        return y > 216.0 / 24389 ? 116 * Math.cbrt(y) - 16 : y * 24389.0 / 27;
    }

    private static double linear(int channel) {
        double c = channel / 255.0;
        return c <= 0.04045 ? c / 12.92 : Math.pow((c + 0.055) / 1.055, 2.4);
    }

    @Test
    void lightnessRisesInEqualSteps() {
        double low = lightness(ColourMap.rgb(0));
        double high = lightness(ColourMap.rgb(1));
        // Colours outside sRGB are clipped at the dark blue end, which lifts them by up to this.
        double clipped = 2.5;
        for (int i = 1; i <= STEPS; i++) {
            double here = lightness(ColourMap.rgb((double) i / STEPS));
            assertTrue(here > lightness(ColourMap.rgb((i - 1.0) / STEPS)), "step " + i);
            assertEquals(low + (high - low) * i / STEPS, here, clipped, "step " + i);
        }
    }

    @Test
    void levelsOutsideTheScaleGetItsEnds() {
        assertEquals(ColourMap.rgb(0), ColourMap.rgb(-3));
        assertEquals(ColourMap.rgb(1), ColourMap.rgb(7));
        assertEquals(ColourMap.rgb(0), ColourMap.rgb(Double.NEGATIVE_INFINITY));
    }
}
