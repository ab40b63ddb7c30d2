package tickover.console;

import javafx.scene.paint.Color;
import tickover.console.model.Preferences.Theme;
import tickover.report.ColourMap;

/**
 * Colours of what is painted pixel by pixel, for each theme. Dark stands for quiet, but in sunlight
 * it is white and loud is black: nothing else can be seen there.
 *
 * @param ink lines and words
 * @param soft what matters less
 * @param ground behind all
 * @param edge grids and frames
 * @param next what is chosen
 * @param suspect what is wrong
 * @param over lines drawn over the waterfall
 * @param table waterfall colours, quiet to loud
 */
@SuppressWarnings("ArrayRecordComponent") // handed over once and never compared
record Paint(
        Color ink,
        Color soft,
        Color ground,
        Color edge,
        Color next,
        Color suspect,
        Color over,
        int[] table) {
    private static final int STEPS = 256;
    private static final int OPAQUE = 0xff000000;

    static Paint of(Theme theme) {
        return switch (theme) {
            case LIGHT ->
                    make("#20242a", "#5a626c", "#ffffff", "#c3cad2", "#1f4e9c", "#b3420b", false);
            case DARK ->
                    make("#eceff2", "#a9b2bc", "#15181c", "#48515b", "#8ab4f8", "#ffab70", false);
            case SUNLIGHT ->
                    make("#000000", "#000000", "#ffffff", "#000000", "#00296b", "#7a2500", true);
        };
    }

    private static Paint make(
            String ink,
            String soft,
            String ground,
            String edge,
            String next,
            String suspect,
            boolean bright) {
        int[] table = new int[STEPS];
        for (int i = 0; i < STEPS; i++) {
            double place = (double) i / (STEPS - 1);
            int grey = (int) Math.round(255 * (1 - place));
            table[i] = OPAQUE | (bright ? 0x10101 * grey : ColourMap.rgb(place));
        }
        return new Paint(
                Color.web(ink),
                Color.web(soft),
                Color.web(ground),
                Color.web(edge),
                Color.web(next),
                Color.web(suspect),
                bright ? Color.web(next) : Color.WHITE,
                table);
    }

    static int argb(Color c) {
        return OPAQUE
                | (int) Math.round(255 * c.getRed()) << 16
                | (int) Math.round(255 * c.getGreen()) << 8
                | (int) Math.round(255 * c.getBlue());
    }
}
