package tickover.console;

import java.util.ArrayList;
import java.util.List;
import java.util.function.BiFunction;
import java.util.function.Function;
import javafx.beans.property.IntegerProperty;
import javafx.scene.Node;
import javafx.scene.control.Button;
import javafx.scene.control.ChoiceBox;
import javafx.scene.control.Control;
import javafx.scene.control.Label;
import javafx.scene.control.Separator;
import javafx.scene.control.TextField;
import javafx.scene.layout.GridPane;
import javafx.scene.layout.VBox;
import tickover.console.FieldSheet.Named;
import tickover.console.model.BearingWords;
import tickover.console.model.ConsoleModel;
import tickover.console.model.DriveDraft;
import tickover.console.model.DriveState;
import tickover.console.model.Lengths;
import tickover.console.model.Preferences.Units;
import tickover.console.model.PulleyRow;
import tickover.drive.Face;
import tickover.drive.Ring;
import tickover.drive.Role;

/** Vehicle, engine, pulleys and belts as tables of fields. */
final class DriveFields {
    private static final double ADD_STEP_MM = 120;

    /** Fields of a pulley in one line of the table. */
    private static final int PER_LINE = 5;

    private final ConsoleModel console;
    private final DriveDraft draft;
    private final IntegerProperty belt;
    private final VBox root = new VBox();

    private final FieldSheet sheet = new FieldSheet();

    private TextField unit;
    private final List<TextField> names = new ArrayList<>();
    private int shownPulleys = -1;
    private int shownBelts = -1;
    private boolean shownLarge;

    DriveFields(ConsoleModel console, IntegerProperty belt) {
        this.console = console;
        this.draft = console.drive();
        this.belt = belt;
        root.getStyleClass().add("page");
        root.setStyle("-fx-padding: 0;");
        draft.state().addListener((o, before, now) -> refresh());
        console.preferences().units().addListener((o, before, now) -> build());
        console.preferences()
                .textScale()
                .addListener(
                        (o, before, now) -> {
                            if (large() != shownLarge) {
                                build();
                            }
                        });
        build();
    }

    Node node() {
        return root;
    }

    /** The field to begin with. */
    Node first() {
        return unit;
    }

    private DriveState state() {
        return draft.state().get();
    }

    private Units units() {
        return console.preferences().units().get();
    }

    /** Large words leave no room for a table: fields stand one below another then. */
    private boolean large() {
        return Look.isLarge(console.preferences());
    }

    private void refresh() {
        if (state().pulleys().size() != shownPulleys || state().belts().size() != shownBelts) {
            boolean more = state().pulleys().size() == shownPulleys + 1;
            boolean here = root.getScene() != null && isInside(root.getScene().getFocusOwner());
            build();
            if (here) {
                // The control that was pressed is gone; the new pulley is typed in next.
                (more ? names.get(names.size() - 1) : unit).requestFocus();
            }
        } else {
            sheet.refresh();
        }
    }

    private boolean isInside(Node owner) {
        for (Node n = owner; n != null; n = n.getParent()) {
            if (n == root) {
                return true;
            }
        }
        return false;
    }

    private void build() {
        names.clear();
        shownPulleys = state().pulleys().size();
        shownBelts = state().belts().size();
        shownLarge = large();
        sheet.clear();
        root.getChildren()
                .setAll(
                        vehicle(),
                        pulleys(),
                        new BeltFields(console, sheet, belt).node(shownLarge));
    }

    private Node vehicle() {
        unit = sheet.text("Name in the fleet", 10, () -> state().unit(), draft::name);
        TextField description =
                sheet.text("Description", 20, () -> state().description(), draft::describe);
        TextField cylinders =
                sheet.text(
                        "Cylinders",
                        3,
                        () -> state().cylinders(),
                        t ->
                                engine(
                                        t,
                                        state().strokes(),
                                        state().idleRpm(),
                                        state().firingOrder()));
        TextField strokes =
                sheet.text(
                        "Strokes, 4 or 2",
                        3,
                        () -> state().strokes(),
                        t ->
                                engine(
                                        state().cylinders(),
                                        t,
                                        state().idleRpm(),
                                        state().firingOrder()));
        TextField idle =
                sheet.text(
                        "Idle speed, rpm",
                        6,
                        () -> state().idleRpm(),
                        t ->
                                engine(
                                        state().cylinders(),
                                        state().strokes(),
                                        t,
                                        state().firingOrder()));
        TextField order =
                sheet.text(
                        "Firing order, with commas",
                        10,
                        () -> state().firingOrder(),
                        t -> engine(state().cylinders(), state().strokes(), state().idleRpm(), t));
        withId("unit", unit);
        GridPane grid =
                FieldSheet.named(
                        shownLarge ? 1 : 2,
                        List.of(
                                new Named("Name in the fleet", unit),
                                new Named("Description", description),
                                new Named("Cylinders", cylinders),
                                new Named("Firing order", order),
                                new Named("Strokes (4 or 2)", strokes),
                                new Named("Idle, rpm", idle)));
        return FieldSheet.panel("Vehicle and engine", grid);
    }

    private void engine(String cylinders, String strokes, String idleRpm, String firingOrder) {
        draft.engine(cylinders, strokes, idleRpm, firingOrder);
    }

    private Node pulleys() {
        Button add = new Button("_Add a pulley");
        add.setId("add-pulley");
        add.setOnAction(e -> draft.add(ADD_STEP_MM * shownPulleys, ADD_STEP_MM));
        Label about =
                Controls.label(
                        "Diameters at the belt's pitch line: 4 mm more than the grooved pulley's"
                                + " outside measure is common practice; 2 to 3 mm more on the"
                                + " belt's back. Bearings: "
                                + BearingWords.HELP,
                        "soft");
        return FieldSheet.panel("Pulleys", shownLarge ? sheets() : table(), add, about);
    }

    /** One pulley below another, each as a sheet of fields. */
    private Node sheets() {
        VBox sheets = new VBox();
        sheets.getStyleClass().add("page");
        sheets.setStyle("-fx-padding: 0;");
        for (int i = 0; i < shownPulleys; i++) {
            if (i > 0) {
                sheets.getChildren().add(new Separator());
            }
            sheets.getChildren().add(FieldSheet.named(1, pulley(i)));
        }
        return sheets;
    }

    /** Two lines for each pulley: one would be twice as wide as there is room. */
    private Node table() {
        GridPane grid = FieldSheet.grid();
        grid.getStyleClass().add("narrow");
        int row = 0;
        for (int i = 0; i < shownPulleys; i++) {
            List<Named> fields = pulley(i);
            if (i > 0) {
                grid.add(new Separator(), 0, row++, PER_LINE, 1);
            }
            for (int k = 0; k < fields.size(); k++) {
                int line = k / PER_LINE;
                if (i == 0) {
                    grid.add(FieldSheet.whole(fields.get(k).name()), k % PER_LINE, line);
                }
                int at = (i == 0 ? 2 : row) + line;
                Control field = fields.get(k).field();
                if (!(field instanceof Button)) {
                    field.setMaxWidth(Double.MAX_VALUE);
                }
                grid.add(field, k % PER_LINE, at);
            }
            row = (i == 0 ? 2 : row) + 2;
        }
        return grid;
    }

    private PulleyRow row(int index) {
        return state().pulleys().get(Math.min(index, state().pulleys().size() - 1));
    }

    private TextField pulleyText(
            int index,
            String name,
            int columns,
            Function<PulleyRow, String> shown,
            BiFunction<PulleyRow, String, PulleyRow> typed) {
        return sheet.text(
                name,
                columns,
                () -> shown.apply(row(index)),
                t -> draft.change(row(index).name(), typed.apply(row(index), t)));
    }

    private TextField length(
            int index,
            String name,
            Function<PulleyRow, String> shown,
            BiFunction<PulleyRow, String, PulleyRow> typed) {
        return pulleyText(
                index,
                name + ", " + Lengths.unit(units()),
                5,
                r -> Lengths.shown(shown.apply(r), units()),
                (r, t) -> typed.apply(r, Lengths.typed(t, units())));
    }

    private List<Named> pulley(int index) {
        TextField name =
                withId(
                        "pulley-" + index,
                        pulleyText(index, "Pulley's name", 9, PulleyRow::name, PulleyRow::named));
        names.add(name);
        name.focusedProperty()
                .addListener(
                        (o, before, now) -> {
                            if (now) {
                                draft.selected().set(row(index).name());
                            }
                        });
        ChoiceBox<Role> role =
                sheet.choice(
                        "What it does",
                        List.of(Role.values()),
                        Role::word,
                        () -> row(index).role(),
                        v -> draft.change(row(index).name(), row(index).as(v)));
        ChoiceBox<Face> face =
                sheet.choice(
                        "Side of the belt that it runs on",
                        List.of(Face.values()),
                        v ->
                                switch (v) {
                                    case GROOVED -> "ribs (grooved)";
                                    case FLAT -> "back (flat)";
                                },
                        () -> row(index).face(),
                        v -> draft.change(row(index).name(), row(index).on(v)));
        ChoiceBox<Ring> ring =
                sheet.choice(
                        "Ring of its bearings that turns",
                        List.of(Ring.values()),
                        Ring::word,
                        () -> row(index).ring(),
                        v -> draft.change(row(index).name(), row(index).turning(v)));
        Button remove = new Button("Remove");
        remove.setAccessibleText("Remove this pulley");
        remove.setOnAction(e -> draft.remove(row(index).name()));
        String mm = Lengths.unit(units());
        return List.of(
                new Named("Pulley", name),
                new Named("Does", role),
                new Named(
                        "Diameter " + mm,
                        length(index, "Diameter", PulleyRow::diameter, PulleyRow::wide)),
                new Named(
                        "Across " + mm,
                        length(index, "Centre to the right", PulleyRow::x, PulleyRow::across)),
                new Named("Up " + mm, length(index, "Centre upwards", PulleyRow::y, PulleyRow::up)),
                new Named(
                        "Bearings",
                        pulleyText(index, "Bearings", 10, PulleyRow::bearings, PulleyRow::bearing)),
                new Named("Runs on", face),
                new Named("Turning ring", ring),
                new Named(
                        "Passes per turn",
                        pulleyText(
                                index,
                                "What passes per turn, such as 11 blades",
                                6,
                                PulleyRow::lines,
                                PulleyRow::passing)),
                new Named("", remove));
    }

    private static TextField withId(String id, TextField field) {
        field.setId(id);
        return field;
    }
}
