package tickover.console;

import java.util.ArrayList;
import java.util.List;
import javafx.scene.Node;
import javafx.scene.shape.Arc;
import javafx.scene.shape.ArcTo;
import javafx.scene.shape.ArcType;
import javafx.scene.shape.ClosePath;
import javafx.scene.shape.LineTo;
import javafx.scene.shape.MoveTo;
import javafx.scene.shape.Path;
import javafx.scene.shape.Polygon;
import tickover.drive.BeltRoute;
import tickover.drive.Direction;
import tickover.drive.DriveBelt;

/** Shapes of an engine's front, seen from the front, the crank drawn turning clockwise. */
final class FrontDrawing {
    private static final double ARROW_DEG = 110;
    private static final double TIP_PIXELS = 6;

    private FrontDrawing() {}

    /** The line of a belt; nothing if its route is not known. */
    static List<Node> belt(DriveBelt belt, FrontScale scale) {
        if (belt.route().isEmpty()) {
            return List.of();
        }
        Path path = new Path();
        path.getStyleClass().add("belt");
        path.setMouseTransparent(true);
        boolean first = true;
        for (BeltRoute.Contact c : belt.route().get().contacts()) {
            double x = scale.x(c.entry().xMm());
            double y = scale.y(c.entry().yMm());
            path.getElements().add(first ? new MoveTo(x, y) : new LineTo(x, y));
            double r = c.radiusMm() * scale.pixelsPerMm();
            path.getElements()
                    .add(
                            new ArcTo(
                                    r,
                                    r,
                                    0,
                                    scale.x(c.exit().xMm()),
                                    scale.y(c.exit().yMm()),
                                    c.wrapDeg() > 180,
                                    !c.anticlockwise()));
            first = false;
        }
        path.getElements().add(new ClosePath());
        return List.of(path);
    }

    /** An open arc with a tip inside a pulley of the given radius, round the origin. */
    static List<Node> turnArrow(Direction direction, double radius) {
        boolean clockwise = direction == Direction.CRANK;
        double r = 0.7 * radius;
        double from = 90 + (clockwise ? ARROW_DEG / 2 : -ARROW_DEG / 2);
        Arc arc = new Arc(0, 0, r, r, from, clockwise ? -ARROW_DEG : ARROW_DEG);
        arc.setType(ArcType.OPEN);
        arc.getStyleClass().add("turn");
        double end = Math.toRadians(from + (clockwise ? -ARROW_DEG : ARROW_DEG));
        double along = end + (clockwise ? -Math.PI / 2 : Math.PI / 2);
        Polygon tip =
                new Polygon(
                        r * Math.cos(end) + TIP_PIXELS * 1.6 * Math.cos(along),
                        -r * Math.sin(end) - TIP_PIXELS * 1.6 * Math.sin(along),
                        (r - TIP_PIXELS) * Math.cos(end),
                        -(r - TIP_PIXELS) * Math.sin(end),
                        (r + TIP_PIXELS) * Math.cos(end),
                        -(r + TIP_PIXELS) * Math.sin(end));
        tip.getStyleClass().add("turn-tip");
        List<Node> nodes = new ArrayList<>(List.of(arc, tip));
        nodes.forEach(n -> n.setMouseTransparent(true));
        return nodes;
    }
}
