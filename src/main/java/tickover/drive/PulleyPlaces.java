package tickover.drive;

import java.util.HashMap;
import java.util.List;
import java.util.Map;

/** Where pulleys stand in a drawing: measured positions to scale, or all in a row. */
public final class PulleyPlaces {
    private static final double GAP_MM = 60;

    /**
     * A circle in a drawing.
     *
     * @param x centre to the right, pixels
     * @param y centre downwards, pixels
     * @param radius pixels
     */
    public record Place(double x, double y, double radius) {}

    private final boolean measured;
    private final double leftMm;
    private final double topMm;
    private final double pixelsPerMm;
    private final double widthPixels;
    private final double heightPixels;
    private final Map<String, Place> places = new HashMap<>();

    private PulleyPlaces(
            List<Pulley> pulleys, Map<String, Position> centres, boolean measured, double span) {
        this.measured = measured;
        double left = Double.POSITIVE_INFINITY;
        double right = Double.NEGATIVE_INFINITY;
        double bottom = Double.POSITIVE_INFINITY;
        double top = Double.NEGATIVE_INFINITY;
        for (Pulley p : pulleys) {
            Position c = centres.get(p.name());
            double r = p.diameterMm() / 2;
            left = Math.min(left, c.xMm() - r);
            right = Math.max(right, c.xMm() + r);
            bottom = Math.min(bottom, c.yMm() - r);
            top = Math.max(top, c.yMm() + r);
        }
        this.leftMm = left;
        this.topMm = top;
        this.pixelsPerMm = span / Math.max(right - left, top - bottom);
        this.widthPixels = (right - left) * pixelsPerMm;
        this.heightPixels = (top - bottom) * pixelsPerMm;
        for (Pulley p : pulleys) {
            double[] at = pixels(centres.get(p.name()));
            places.put(p.name(), new Place(at[0], at[1], pixels(p.diameterMm() / 2)));
        }
    }

    /**
     * Lays pulleys out.
     *
     * @param pulleys at least one
     * @param spanPixels the longer side, pixels
     * @return to scale where every centre is measured, in a row otherwise
     */
    public static PulleyPlaces of(List<Pulley> pulleys, double spanPixels) {
        return new PulleyPlaces(pulleys, centres(pulleys), measured(pulleys), spanPixels);
    }

    /**
     * Says where pulleys stand: where they were measured, or all in a row if one was not.
     *
     * @param pulleys any number
     * @return centres by name
     */
    public static Map<String, Position> centres(List<Pulley> pulleys) {
        Map<String, Position> centres = new HashMap<>();
        boolean measured = measured(pulleys);
        double x = 0;
        for (Pulley p : pulleys) {
            x += p.diameterMm() / 2;
            Position inRow = new Position(x, 0);
            centres.put(p.name(), measured ? p.position().orElse(inRow) : inRow);
            x += p.diameterMm() / 2 + GAP_MM;
        }
        return centres;
    }

    private static boolean measured(List<Pulley> pulleys) {
        return pulleys.stream().allMatch(p -> p.position().isPresent());
    }

    /**
     * Finds a pulley's circle.
     *
     * @param pulley its name
     * @return where it stands
     */
    public Place of(String pulley) {
        return places.get(pulley);
    }

    /**
     * Turns a position into a place.
     *
     * @param position seen from the front of the engine
     * @return to the right and downwards, pixels
     */
    public double[] pixels(Position position) {
        return new double[] {
            (position.xMm() - leftMm) * pixelsPerMm, (topMm - position.yMm()) * pixelsPerMm
        };
    }

    /**
     * Scales a length.
     *
     * @param lengthMm mm
     * @return pixels
     */
    public double pixels(double lengthMm) {
        return lengthMm * pixelsPerMm;
    }

    /**
     * Returns the drawing's width.
     *
     * @return pixels
     */
    public double widthPixels() {
        return widthPixels;
    }

    /**
     * Returns the drawing's height.
     *
     * @return pixels
     */
    public double heightPixels() {
        return heightPixels;
    }

    /**
     * Returns whether it is to scale.
     *
     * @return false if some position is not known, and the pulleys stand in a row
     */
    public boolean measured() {
        return measured;
    }
}
