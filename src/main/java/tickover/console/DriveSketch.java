package tickover.console;

import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import javafx.beans.property.BooleanProperty;
import javafx.beans.property.IntegerProperty;
import javafx.beans.property.SimpleBooleanProperty;
import javafx.beans.property.SimpleIntegerProperty;
import javafx.scene.AccessibleRole;
import javafx.scene.Group;
import javafx.scene.Node;
import javafx.scene.control.Label;
import javafx.scene.input.KeyCode;
import javafx.scene.input.KeyEvent;
import javafx.scene.input.MouseButton;
import javafx.scene.input.MouseEvent;
import javafx.scene.layout.Pane;
import javafx.scene.layout.Region;
import javafx.scene.shape.Circle;
import javafx.scene.shape.Line;
import javafx.scene.text.TextAlignment;
import tickover.console.model.DriveDraft;
import tickover.console.model.Numbers;
import tickover.console.model.Preferences;
import tickover.console.model.PulleyRow;
import tickover.drive.DriveModel;
import tickover.drive.DrivePart;
import tickover.drive.Face;

/**
 * The front of the engine while it is entered: a click on an empty place puts a pulley there,
 * dragging or the arrow keys move it, and in routing a click leads the belt on to it.
 */
final class DriveSketch extends Region {
    private static final double MARGIN_PIXELS = 56;
    private static final double SMALLEST_MM = 400;
    private static final double GRID_MM = 50;
    private static final double SMALLEST_HEIGHT_PIXELS = 380;
    private static final double STEP_MM = 5;
    private static final double FINE_STEP_MM = 1;
    private static final double UNKNOWN_DIAMETER_MM = 60;

    private final DriveDraft draft;
    private final Preferences preferences;
    private final Pane pane = new Pane();
    private final Group gridLayer = new Group();
    private final Group beltLayer = new Group();
    private final Group pulleyLayer = new Group();
    private final BooleanProperty routing = new SimpleBooleanProperty(false);
    private final IntegerProperty belt = new SimpleIntegerProperty(0);
    private final Map<String, Group> nodes = new HashMap<>();
    private FrontScale scale = new FrontScale(1, 0, 0);
    private boolean dragging;

    DriveSketch(DriveDraft draft, Preferences preferences) {
        this.draft = draft;
        this.preferences = preferences;
        getStyleClass().add("sketch");
        setAccessibleText(
                "Sketch of the engine's front. Tab goes from pulley to pulley, arrow keys move"
                        + " it.");
        getChildren().add(pane);
        pane.getChildren().addAll(gridLayer, beltLayer, pulleyLayer);
        setMinSize(320, SMALLEST_HEIGHT_PIXELS);
        draft.state().addListener((o, before, now) -> redraw());
        draft.selected().addListener((o, before, now) -> redraw());
        routing.addListener((o, before, now) -> redraw());
        preferences.textScale().addListener((o, before, now) -> redraw());
        pane.setOnMouseClicked(this::clicked);
    }

    BooleanProperty routing() {
        return routing;
    }

    IntegerProperty belt() {
        return belt;
    }

    @Override
    protected void layoutChildren() {
        if (pane.getWidth() != getWidth() || pane.getHeight() != getHeight()) {
            pane.resizeRelocate(0, 0, getWidth(), getHeight());
            redraw();
        }
    }

    private void redraw() {
        List<PulleyRow> rows = draft.state().get().pulleys();
        Optional<DriveModel> model = draft.outcome().get().model();
        if (!dragging) {
            scale = fitted(rows);
            grid();
            pulleys(rows, model.orElse(null));
        }
        place(rows);
        beltLayer.getChildren().clear();
        model.ifPresent(
                m ->
                        m.belts()
                                .forEach(
                                        b ->
                                                beltLayer
                                                        .getChildren()
                                                        .addAll(FrontDrawing.belt(b, scale))));
    }

    /** Makes the pulleys anew; not while one is dragged, whose node holds the mouse. */
    private void pulleys(List<PulleyRow> rows, DriveModel modelOrNull) {
        boolean held = nodes.values().stream().anyMatch(Node::isFocused);
        nodes.clear();
        pulleyLayer.getChildren().clear();
        for (PulleyRow row : rows) {
            DrivePart part =
                    modelOrNull == null ? null : modelOrNull.part(row.name().strip()).orElse(null);
            Group node = pulley(row, diameterMm(row), part);
            nodes.put(row.name(), node);
            pulleyLayer.getChildren().add(node);
        }
        if (held && nodes.containsKey(draft.selected().get())) {
            nodes.get(draft.selected().get()).requestFocus();
        }
    }

    /** Pulleys without a place stand in a row at the lower edge. */
    private void place(List<PulleyRow> rows) {
        double rowPixels = MARGIN_PIXELS / 4;
        for (PulleyRow row : rows) {
            OptionalDouble x = Numbers.read(row.x());
            OptionalDouble y = Numbers.read(row.y());
            double radius = diameterMm(row) / 2 * scale.pixelsPerMm();
            Group node = nodes.get(row.name());
            if (node == null) {
                continue;
            }
            if (x.isPresent() && y.isPresent()) {
                node.setTranslateX(scale.x(x.getAsDouble()));
                node.setTranslateY(scale.y(y.getAsDouble()));
            } else {
                node.setTranslateX(rowPixels + radius);
                node.setTranslateY(getHeight() - radius - MARGIN_PIXELS);
                rowPixels += 2 * radius + MARGIN_PIXELS / 2;
            }
        }
    }

    private static double diameterMm(PulleyRow row) {
        double typed = Numbers.read(row.diameter()).orElse(UNKNOWN_DIAMETER_MM);
        return typed > 0 ? typed : UNKNOWN_DIAMETER_MM;
    }

    private FrontScale fitted(List<PulleyRow> rows) {
        FrontScale.Box box = FrontScale.Box.EMPTY;
        for (PulleyRow row : rows) {
            OptionalDouble x = Numbers.read(row.x());
            OptionalDouble y = Numbers.read(row.y());
            if (x.isPresent() && y.isPresent()) {
                box = box.with(x.getAsDouble(), y.getAsDouble(), diameterMm(row) / 2);
            }
        }
        return FrontScale.fit(box.atLeast(SMALLEST_MM), getWidth(), getHeight(), MARGIN_PIXELS);
    }

    private void grid() {
        gridLayer.getChildren().clear();
        for (double x = Math.ceil(scale.xMm(0) / GRID_MM) * GRID_MM;
                scale.x(x) < getWidth();
                x += GRID_MM) {
            gridLine(scale.x(x), 0, scale.x(x), getHeight());
        }
        for (double y = Math.floor(scale.yMm(0) / GRID_MM) * GRID_MM;
                scale.y(y) < getHeight();
                y -= GRID_MM) {
            gridLine(0, scale.y(y), getWidth(), scale.y(y));
        }
    }

    private void gridLine(double x1, double y1, double x2, double y2) {
        Line line = new Line(x1, y1, x2, y2);
        line.getStyleClass().add("grid-line");
        line.setMouseTransparent(true);
        gridLayer.getChildren().add(line);
    }

    /** One pulley round the origin of its group. */
    private Group pulley(PulleyRow row, double diameterMm, DrivePart partOrNull) {
        double radius = Math.max(4, diameterMm / 2 * scale.pixelsPerMm());
        Group group = new Group();
        group.getStyleClass().add("pulley-node");
        Circle rim = new Circle(radius);
        rim.getStyleClass().add("pulley");
        if (row.name().equals(draft.selected().get())) {
            rim.getStyleClass().add("chosen");
        }
        group.getChildren().add(rim);
        if (row.face() == Face.GROOVED) {
            Circle groove = new Circle(0.9 * radius);
            groove.getStyleClass().add("groove");
            groove.setMouseTransparent(true);
            group.getChildren().add(groove);
        }
        if (partOrNull != null) {
            group.getChildren().addAll(FrontDrawing.turnArrow(partOrNull.direction(), radius));
        }
        // Large names leave no room for the turns, which stand below the fields too.
        boolean turns = partOrNull != null && !Look.isLarge(preferences);
        group.getChildren()
                .add(
                        turns
                                ? words(
                                        radius,
                                        row.name(),
                                        String.format(
                                                Locale.ROOT,
                                                "%.3f turns",
                                                partOrNull.turnsPerCrankTurn()))
                                : words(radius, row.name()));
        group.setFocusTraversable(true);
        group.setAccessibleRole(AccessibleRole.BUTTON);
        group.setAccessibleText(
                row.name() + ", " + row.role().word() + ", " + row.diameter() + " mm");
        listen(group, row.name());
        return group;
    }

    /** Words below a pulley, on a ground that keeps the belt from crossing them. */
    private static Label words(double radius, String... lines) {
        Label label = new Label(String.join("\n", lines));
        label.getStyleClass().add("part-words");
        label.setTextAlignment(TextAlignment.CENTER);
        label.setMouseTransparent(true);
        label.setLayoutY(radius + 4);
        label.layoutXProperty().bind(label.widthProperty().divide(-2));
        return label;
    }

    private void listen(Group group, String name) {
        group.focusedProperty()
                .addListener(
                        (o, before, now) -> {
                            if (now && !name.equals(draft.selected().get())) {
                                draft.selected().set(name);
                            }
                        });
        group.setOnKeyPressed(e -> pressed(e, name));
        group.setOnMousePressed(
                e -> {
                    if (e.getButton() == MouseButton.PRIMARY) {
                        if (routing.get()) {
                            draft.route(belt.get(), name);
                        } else {
                            draft.selected().set(name);
                            dragging = true;
                        }
                        e.consume();
                    }
                });
        group.setOnMouseDragged(
                e -> {
                    if (dragging) {
                        var at = pane.sceneToLocal(e.getSceneX(), e.getSceneY());
                        draft.move(name, scale.xMm(at.getX()), scale.yMm(at.getY()));
                        e.consume();
                    }
                });
        group.setOnMouseReleased(
                e -> {
                    dragging = false;
                    redraw();
                    e.consume();
                });
        group.setOnMouseClicked(MouseEvent::consume);
    }

    private void pressed(KeyEvent e, String name) {
        double step = e.isShiftDown() ? FINE_STEP_MM : STEP_MM;
        KeyCode code = e.getCode();
        if (code == KeyCode.DELETE) {
            draft.remove(name);
        } else if (code == KeyCode.ENTER || code == KeyCode.SPACE) {
            if (routing.get()) {
                draft.route(belt.get(), name);
            } else {
                draft.selected().set(name);
            }
        } else if (code.isArrowKey() && !e.isControlDown() && !e.isAltDown()) {
            PulleyRow row =
                    draft.state().get().pulleys().stream()
                            .filter(r -> r.name().equals(name))
                            .findFirst()
                            .orElseThrow();
            double x = Numbers.read(row.x()).orElse(0);
            double y = Numbers.read(row.y()).orElse(0);
            draft.move(
                    name,
                    x + (code == KeyCode.RIGHT ? step : code == KeyCode.LEFT ? -step : 0),
                    y + (code == KeyCode.UP ? step : code == KeyCode.DOWN ? -step : 0));
        } else {
            return;
        }
        e.consume();
    }

    private void clicked(MouseEvent e) {
        if (e.getButton() == MouseButton.PRIMARY && !routing.get() && e.isStillSincePress()) {
            draft.add(scale.xMm(e.getX()), scale.yMm(e.getY()));
        }
    }
}
