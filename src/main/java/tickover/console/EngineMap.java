package tickover.console;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Consumer;
import javafx.scene.AccessibleRole;
import javafx.scene.Group;
import javafx.scene.Node;
import javafx.scene.control.Label;
import javafx.scene.input.KeyCode;
import javafx.scene.layout.Pane;
import javafx.scene.layout.Region;
import javafx.scene.shape.Circle;
import javafx.scene.shape.Polygon;
import javafx.scene.shape.Rectangle;
import javafx.scene.shape.Shape;
import javafx.scene.text.TextAlignment;
import tickover.drive.DriveBelt;
import tickover.drive.DriveModel;
import tickover.drive.DrivePart;
import tickover.drive.Face;
import tickover.drive.PartWords;
import tickover.drive.Position;
import tickover.drive.PulleyPlaces;

/**
 * The front of this engine as a map: every part where it is, what is known of it said beside it,
 * and points that are no pulleys in a row above. A mark is told by shape and words; colour only
 * repeats it.
 */
final class EngineMap extends Region {
    private static final double MARGIN_PIXELS = 64;
    private static final double SMALLEST_MM = 300;
    private static final double BOX_PIXELS = 18;

    /** How a part is marked. */
    enum Mark {
        /** Nothing to say. */
        NONE(""),
        /** Suspected. */
        SUSPECT("suspect"),
        /** To be probed now. */
        NEXT("next"),
        /** Probed, and good. */
        GOOD("good"),
        /** Probed, and to be repeated. */
        REPEAT("repeat");

        private final String style;

        Mark(String style) {
            this.style = style;
        }
    }

    /**
     * What is said of a part.
     *
     * @param mark how it is marked
     * @param words a few words; may be empty
     */
    record Said(Mark mark, String words) {
        static final Said NOTHING = new Said(Mark.NONE, "");
    }

    private final Pane pane = new Pane();
    private final Map<String, Said> said = new HashMap<>();
    private final List<String> others = new ArrayList<>();
    private Consumer<String> chosen = point -> {};
    private DriveModel model;

    EngineMap() {
        getStyleClass().add("sketch");
        getChildren().add(pane);
        setMinSize(280, 240);
        setAccessibleText("Front of the engine");
    }

    /** Shows a drive; points that are no pulleys stand in a row above it. */
    void show(DriveModel drive, List<String> otherPoints, Map<String, Said> words) {
        model = drive;
        others.clear();
        others.addAll(otherPoints);
        said.clear();
        said.putAll(words);
        redraw();
    }

    /** Says who wants to know which point was chosen. */
    void onChosen(Consumer<String> listener) {
        chosen = listener;
    }

    @Override
    protected void layoutChildren() {
        if (pane.getWidth() != getWidth() || pane.getHeight() != getHeight()) {
            pane.resizeRelocate(0, 0, getWidth(), getHeight());
            redraw();
        }
    }

    private void redraw() {
        String held =
                pane.getChildren().stream()
                        .filter(Node::isFocused)
                        .map(Node::getId)
                        .findFirst()
                        .orElse("");
        pane.getChildren().clear();
        if (model == null || !(getWidth() > 0)) {
            return;
        }
        Map<String, Position> places =
                PulleyPlaces.centres(model.parts().stream().map(DrivePart::pulley).toList());
        double roomAbove = others.isEmpty() ? 0 : 3.5 * BOX_PIXELS;
        FrontScale.Box box = FrontScale.Box.EMPTY;
        for (DrivePart part : model.parts()) {
            Position at = places.get(part.name());
            box = box.with(at.xMm(), at.yMm(), part.pulley().diameterMm() / 2);
        }
        FrontScale scale =
                FrontScale.fit(
                        box.atLeast(SMALLEST_MM),
                        getWidth(),
                        getHeight() - roomAbove,
                        MARGIN_PIXELS);
        Group front = new Group();
        front.setManaged(false);
        for (DriveBelt belt : model.belts()) {
            List<Node> line = FrontDrawing.belt(belt, scale);
            Said words = said.getOrDefault(DriveBelt.partName(belt.name()), Said.NOTHING);
            if (words.mark() == Mark.SUSPECT) {
                line.forEach(n -> n.getStyleClass().add("suspect"));
            }
            front.getChildren().addAll(line);
        }
        front.setLayoutY(roomAbove);
        for (DrivePart part : model.parts()) {
            Position at = places.get(part.name());
            Group node = pulley(part, part.pulley().diameterMm() / 2 * scale.pixelsPerMm());
            node.setTranslateX(scale.x(at.xMm()));
            node.setTranslateY(scale.y(at.yMm()) + roomAbove);
            pane.getChildren().add(node);
        }
        pane.getChildren().add(0, front);
        for (int i = 0; i < others.size(); i++) {
            Group node = box(others.get(i));
            node.setTranslateX((i + 0.5) * getWidth() / others.size());
            node.setTranslateY(1.2 * BOX_PIXELS);
            pane.getChildren().add(node);
        }
        pane.getChildren().stream()
                .filter(n -> held.equals(n.getId()) && !held.isEmpty())
                .findFirst()
                .ifPresent(Node::requestFocus);
    }

    private Group pulley(DrivePart part, double radius) {
        Said words = said.getOrDefault(part.name(), Said.NOTHING);
        Circle rim = new Circle(radius);
        Group group = point(part.name(), words, rim);
        if (part.pulley().face() == Face.GROOVED) {
            Circle groove = new Circle(0.9 * radius);
            groove.getStyleClass().add("groove");
            groove.setMouseTransparent(true);
            group.getChildren().add(groove);
        }
        group.getChildren().addAll(FrontDrawing.turnArrow(part.direction(), radius));
        group.getChildren().add(label(part.name(), words, radius));
        shape(words.mark(), radius).forEach(group.getChildren()::add);
        return group;
    }

    private Group box(String name) {
        Said words = said.getOrDefault(name, Said.NOTHING);
        Rectangle shape = new Rectangle(-BOX_PIXELS / 2, -BOX_PIXELS / 2, BOX_PIXELS, BOX_PIXELS);
        Group group = point(name, words, shape);
        group.getChildren().add(label(name, words, BOX_PIXELS / 2));
        shape(words.mark(), BOX_PIXELS / 2).forEach(group.getChildren()::add);
        return group;
    }

    private Group point(String name, Said words, Shape shape) {
        shape.getStyleClass().add("pulley");
        if (words.mark() != Mark.NONE) {
            shape.getStyleClass().add(words.mark().style);
        }
        Group group = new Group(shape);
        group.setId("point-" + name);
        group.getStyleClass().add("pulley-node");
        group.setFocusTraversable(true);
        group.setAccessibleRole(AccessibleRole.BUTTON);
        group.setAccessibleText((PartWords.plain(name) + " " + words.words()).strip());
        group.setOnMouseClicked(e -> chosen.accept(name));
        group.setOnKeyPressed(
                e -> {
                    if (e.getCode() == KeyCode.ENTER) {
                        chosen.accept(name);
                        e.consume();
                    }
                });
        return group;
    }

    private static Label label(String name, Said words, double radius) {
        Label label =
                new Label(
                        PartWords.plain(name)
                                + (words.words().isEmpty() ? "" : "\n" + words.words()));
        label.getStyleClass().addAll("part-words", "map-words");
        if (words.mark() != Mark.NONE) {
            label.getStyleClass().add(words.mark().style);
        }
        label.setTextAlignment(TextAlignment.CENTER);
        label.setMouseTransparent(true);
        label.setLayoutY(radius + 4);
        label.layoutXProperty().bind(label.widthProperty().divide(-2));
        return label;
    }

    /** A shape of its own for each mark, right of the part. */
    private static List<Node> shape(Mark mark, double radius) {
        double x = radius + 6;
        Polygon shape =
                switch (mark) {
                    case NONE -> new Polygon();
                    case SUSPECT -> new Polygon(x, 0, x + 22, -12, x + 22, 12);
                    case NEXT -> new Polygon(x, 0, x + 14, -14, x + 28, 0, x + 14, 14);
                    case GOOD ->
                            new Polygon(
                                    x, 0, x + 5, -5, x + 10, 2, x + 22, -12, x + 27, -7, x + 10,
                                    12);
                    case REPEAT ->
                            new Polygon(
                                    x, -10, x + 5, -14, x + 12, -5, x + 19, -14, x + 24, -10,
                                    x + 16, 0, x + 24, 10, x + 19, 14, x + 12, 5, x + 5, 14, x, 10,
                                    x + 8, 0);
                };
        if (mark == Mark.NONE) {
            return List.of();
        }
        shape.getStyleClass().addAll("mark", mark.style);
        shape.setMouseTransparent(true);
        return List.of(shape);
    }
}
