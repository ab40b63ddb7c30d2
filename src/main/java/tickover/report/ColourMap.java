package tickover.report;

import java.awt.Color;

/**
 * Colours for levels: dark blue through grey to light yellow, lightness rising in equal steps.
 *
 * <p>Blue and yellow are told apart with every common colour blindness, and because lightness alone
 * orders the colours, a grey print still reads. Each colour is interpolated in CIE L*a*b* between
 * three anchors and converted to sRGB (D65).
 */
public final class ColourMap {
    private static final int STEPS = 256;

    /** Lightness, green-red and blue-yellow of both ends and the middle. */
    private static final double[] LOW = {8, 14, -38};

    private static final double[] MIDDLE = {52, 0, 2};
    private static final double[] HIGH = {96, -10, 62};

    /** White point D65 relative to Y = 1. */
    private static final double WHITE_X = 0.95047;

    private static final double WHITE_Z = 1.08883;

    private static final int[] RGB = table();

    private ColourMap() {}

    /**
     * Returns the colour of a level.
     *
     * @param position 0 for the lowest level shown, 1 for the highest; clamped
     * @return 0xRRGGBB
     */
    public static int rgb(double position) {
        int index = (int) Math.round(Math.max(0, Math.min(1, position)) * (STEPS - 1));
        return RGB[index];
    }

    /** The same as a colour object. */
    static Color colour(double position) {
        return new Color(rgb(position));
    }

    private static int[] table() {
        int[] rgb = new int[STEPS];
        for (int i = 0; i < STEPS; i++) {
            double t = (double) i / (STEPS - 1);
            double[] from = t < 0.5 ? LOW : MIDDLE;
            double[] to = t < 0.5 ? MIDDLE : HIGH;
            double u = t < 0.5 ? 2 * t : 2 * t - 1;
            rgb[i] =
                    fromLab(
                            LOW[0] + t * (HIGH[0] - LOW[0]),
                            from[1] + u * (to[1] - from[1]),
                            from[2] + u * (to[2] - from[2]));
        }
        return rgb;
    }

    private static int fromLab(double lightness, double a, double b) {
        double fy = (lightness + 16) / 116;
        double x = WHITE_X * inverse(fy + a / 500);
        double y = inverse(fy);
        double z = WHITE_Z * inverse(fy - b / 200);
        double red = 3.2404542 * x - 1.5371385 * y - 0.4985314 * z;
        double green = -0.9692660 * x + 1.8760108 * y + 0.0415560 * z;
        double blue = 0.0556434 * x - 0.2040259 * y + 1.0572252 * z;
        return channel(red) << 16 | channel(green) << 8 | channel(blue);
    }

    private static double inverse(double f) {
        double knee = 6.0 / 29;
        return f > knee ? f * f * f : 3 * knee * knee * (f - 4.0 / 29);
    }

    private static int channel(double linear) {
        double c = Math.max(0, Math.min(1, linear));
        double coded = c <= 0.0031308 ? 12.92 * c : 1.055 * Math.pow(c, 1 / 2.4) - 0.055;
        return (int) Math.round(255 * coded);
    }
}
