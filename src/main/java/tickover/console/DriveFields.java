package tickover.console;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.function.BiFunction;
import java.util.function.Consumer;
import java.util.function.Function;
import java.util.function.Supplier;
import javafx.beans.property.IntegerProperty;
import javafx.geometry.Insets;
import javafx.scene.Node;
import javafx.scene.control.Button;
import javafx.scene.control.ChoiceBox;
import javafx.scene.control.Label;
import javafx.scene.control.ScrollPane;
import javafx.scene.control.TextField;
import javafx.scene.layout.GridPane;
import javafx.scene.layout.Priority;
import javafx.scene.layout.Region;
import javafx.scene.layout.VBox;
import tickover.console.model.BearingWords;
import tickover.console.model.BeltRow;
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

    private final ConsoleModel console;
    private final DriveDraft draft;
    private final IntegerProperty belt;
    private final VBox root = new VBox();

    /** Brings what is shown up to date; a field that is being typed in is left alone. */
    private final List<Runnable> refreshers = new ArrayList<>();

    private TextField unit;
    private int shownPulleys = -1;
    private int shownBelts = -1;

    DriveFields(ConsoleModel console, IntegerProperty belt) {
        this.console = console;
        this.draft = console.drive();
        this.belt = belt;
        root.getStyleClass().add("page");
        root.setStyle("-fx-padding: 0;");
        draft.state().addListener((o, before, now) -> refresh());
        console.preferences().units().addListener((o, before, now) -> build());
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

    private void refresh() {
        if (state().pulleys().size() != shownPulleys || state().belts().size() != shownBelts) {
            build();
        } else {
            List.copyOf(refreshers).forEach(Runnable::run);
        }
    }

    private void build() {
        shownPulleys = state().pulleys().size();
        shownBelts = state().belts().size();
        refreshers.clear();
        root.getChildren().setAll(vehicle(), pulleys(), belts());
    }

    private TextField text(String name, int columns, Supplier<String> shown, Typed typed) {
        TextField field = Controls.field(name, shown, typed::typed);
        field.setPrefColumnCount(columns);
        refreshers.add(
                () -> {
                    if (!field.isFocused() && !field.getText().equals(shown.get())) {
                        field.setText(shown.get());
                    }
                });
        return field;
    }

    /** Takes what was typed. */
    private interface Typed {
        void typed(String text);
    }

    private Node vehicle() {
        GridPane grid = grid();
        unit = text("Name in the fleet", 10, () -> state().unit(), draft::name);
        TextField description =
                text("Description", 20, () -> state().description(), draft::describe);
        TextField cylinders =
                text(
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
                text(
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
                text(
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
                text(
                        "Firing order, with commas",
                        10,
                        () -> state().firingOrder(),
                        t -> engine(state().cylinders(), state().strokes(), state().idleRpm(), t));
        GridPane.setHgrow(description, Priority.ALWAYS);
        withId("unit", unit);
        grid.addRow(0, whole("Name in the fleet"), unit, whole("Description"), description);
        grid.addRow(1, whole("Cylinders"), cylinders, whole("Firing order"), order);
        grid.addRow(2, whole("Strokes (4 or 2)"), strokes, whole("Idle, rpm"), idle);
        return panel("Vehicle and engine", grid);
    }

    private void engine(String cylinders, String strokes, String idleRpm, String firingOrder) {
        draft.engine(cylinders, strokes, idleRpm, firingOrder);
    }

    private Node pulleys() {
        GridPane grid = grid();
        grid.getStyleClass().add("narrow");
        String mm = Lengths.unit(units());
        List<String> heads =
                List.of(
                        "Pulley",
                        "Does",
                        "Diameter " + mm,
                        "Runs on",
                        "Across " + mm,
                        "Up " + mm,
                        "Bearings",
                        "Turning ring",
                        "Passes per turn",
                        "");
        for (int i = 0; i < heads.size(); i++) {
            grid.add(whole(heads.get(i)), i, 0);
        }
        for (int i = 0; i < shownPulleys; i++) {
            pulleyRow(grid, i);
        }
        Button add = new Button("_Add a pulley");
        add.setId("add-pulley");
        add.setOnAction(e -> draft.add(ADD_STEP_MM * shownPulleys, ADD_STEP_MM));
        ScrollPane wide = new ScrollPane(grid);
        grid.setPadding(new Insets(0, 0, 16, 0));
        wide.setVbarPolicy(ScrollPane.ScrollBarPolicy.NEVER);
        Label about =
                Controls.label(
                        "Diameters at the belt's pitch line: 4 mm more than the grooved pulley's"
                                + " outside measure is common practice; 2 to 3 mm more on the"
                                + " belt's back. Bearings: "
                                + BearingWords.HELP,
                        "soft");
        return panel("Pulleys", wide, add, about);
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
        return text(
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

    private void pulleyRow(GridPane grid, int index) {
        TextField name =
                withId(
                        "pulley-" + index,
                        pulleyText(index, "Pulley's name", 9, PulleyRow::name, PulleyRow::named));
        name.focusedProperty()
                .addListener(
                        (o, before, now) -> {
                            if (now) {
                                draft.selected().set(row(index).name());
                            }
                        });
        ChoiceBox<Role> role =
                choice(
                        "What it does",
                        List.of(Role.values()),
                        Role::word,
                        () -> row(index).role(),
                        v -> draft.change(row(index).name(), row(index).as(v)));
        ChoiceBox<Face> face =
                choice(
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
                choice(
                        "Ring of its bearings that turns",
                        List.of(Ring.values()),
                        Ring::word,
                        () -> row(index).ring(),
                        v -> draft.change(row(index).name(), row(index).turning(v)));
        Button remove = new Button("Remove");
        remove.setAccessibleText("Remove this pulley");
        remove.setOnAction(e -> draft.remove(row(index).name()));
        grid.addRow(
                index + 1,
                name,
                role,
                length(index, "Diameter", PulleyRow::diameter, PulleyRow::wide),
                face,
                length(index, "Centre to the right", PulleyRow::x, PulleyRow::across),
                length(index, "Centre upwards", PulleyRow::y, PulleyRow::up),
                pulleyText(index, "Bearings", 10, PulleyRow::bearings, PulleyRow::bearing),
                ring,
                pulleyText(
                        index,
                        "What passes per turn, such as 11 blades",
                        10,
                        PulleyRow::lines,
                        PulleyRow::passing),
                remove);
    }

    private <T> ChoiceBox<T> choice(
            String name,
            List<T> values,
            Function<T, String> words,
            Supplier<T> shown,
            Consumer<T> chosen) {
        ChoiceBox<T> box = Controls.choice(name, values, words, shown, chosen);
        refreshers.add(() -> box.setValue(shown.get()));
        return box;
    }

    private Node belts() {
        GridPane grid = grid();
        List<String> heads =
                List.of("Belt", "Length " + Lengths.unit(units()), "Touches, in order", "");
        for (int i = 0; i < heads.size(); i++) {
            grid.add(whole(heads.get(i)), i, 0);
        }
        for (int i = 0; i < shownBelts; i++) {
            beltRow(grid, i);
        }
        Button add = new Button("Add a _belt");
        add.setOnAction(e -> belt.set(draft.addBelt()));
        return panel(
                "Belts",
                grid,
                add,
                Controls.label(
                        "Leave the length empty to have it computed from the positions.", "soft"));
    }

    private BeltRow beltAt(int index) {
        return state().belts().get(Math.min(index, state().belts().size() - 1));
    }

    private void beltRow(GridPane grid, int index) {
        TextField name =
                text(
                        "Belt's name",
                        7,
                        () -> beltAt(index).name(),
                        t ->
                                draft.changeBelt(
                                        index,
                                        new BeltRow(
                                                t, beltAt(index).length(), beltAt(index).path())));
        TextField length =
                text(
                        "Belt's length, " + Lengths.unit(units()),
                        6,
                        () -> Lengths.shown(beltAt(index).length(), units()),
                        t ->
                                draft.changeBelt(
                                        index,
                                        new BeltRow(
                                                beltAt(index).name(),
                                                Lengths.typed(t, units()),
                                                beltAt(index).path())));
        TextField path =
                withId(
                        "path-" + index,
                        text(
                                "Pulleys in the order of contact, with commas",
                                28,
                                () -> beltAt(index).path(),
                                t ->
                                        draft.changeBelt(
                                                index,
                                                new BeltRow(
                                                        beltAt(index).name(),
                                                        beltAt(index).length(),
                                                        t))));
        GridPane.setHgrow(path, Priority.ALWAYS);
        for (TextField field : Arrays.asList(name, length, path)) {
            field.focusedProperty()
                    .addListener(
                            (o, before, now) -> {
                                if (now) {
                                    belt.set(index);
                                }
                            });
        }
        Button remove = new Button("Remove");
        remove.setAccessibleText("Remove this belt");
        remove.setOnAction(
                e -> {
                    draft.removeBelt(index);
                    belt.set(0);
                });
        grid.addRow(index + 1, name, length, path, remove);
    }

    private static TextField withId(String id, TextField field) {
        field.setId(id);
        return field;
    }

    /** A label that is never cut short. */
    private static Label whole(String words) {
        Label label = new Label(words);
        label.setMinWidth(Region.USE_PREF_SIZE);
        return label;
    }

    private static GridPane grid() {
        GridPane grid = new GridPane();
        grid.setHgap(8);
        grid.setVgap(6);
        return grid;
    }

    private static Node panel(String title, Node... content) {
        VBox panel = new VBox(Controls.label(title, "head"));
        panel.getChildren().addAll(content);
        panel.getStyleClass().add("panel");
        return panel;
    }
}
