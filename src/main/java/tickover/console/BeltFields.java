package tickover.console;

import java.util.Arrays;
import java.util.List;
import javafx.beans.property.IntegerProperty;
import javafx.scene.Node;
import javafx.scene.control.Button;
import javafx.scene.control.TextField;
import javafx.scene.layout.GridPane;
import javafx.scene.layout.Priority;
import javafx.scene.layout.VBox;
import tickover.console.FieldSheet.Named;
import tickover.console.model.BeltRow;
import tickover.console.model.ConsoleModel;
import tickover.console.model.DriveDraft;
import tickover.console.model.DriveState;
import tickover.console.model.Lengths;
import tickover.console.model.Preferences.Units;

/** The belts of a drive as a table of fields. */
final class BeltFields {
    private final ConsoleModel console;
    private final DriveDraft draft;
    private final FieldSheet sheet;
    private final IntegerProperty belt;

    BeltFields(ConsoleModel console, FieldSheet sheet, IntegerProperty belt) {
        this.console = console;
        this.draft = console.drive();
        this.sheet = sheet;
        this.belt = belt;
    }

    private DriveState state() {
        return draft.state().get();
    }

    private Units units() {
        return console.preferences().units().get();
    }

    /**
     * Makes the fields.
     *
     * @param large whether words are so large that there is no room for a table
     */
    Node node(boolean large) {
        VBox sheets = new VBox(6);
        GridPane grid = FieldSheet.grid();
        for (int i = 0; i < state().belts().size(); i++) {
            List<Named> fields = belt(i);
            if (large) {
                sheets.getChildren().add(FieldSheet.named(1, fields));
            }
            for (int k = 0; k < fields.size() && !large; k++) {
                if (i == 0) {
                    grid.add(FieldSheet.whole(fields.get(k).name()), k, 0);
                }
                grid.add(fields.get(k).field(), k, i + 1);
            }
        }
        Button add = new Button("Add a _belt");
        add.setOnAction(e -> belt.set(draft.addBelt()));
        return FieldSheet.panel(
                "Belts",
                large ? sheets : grid,
                add,
                Controls.label(
                        "Leave the length empty to have it computed from the positions.", "soft"));
    }

    private BeltRow beltAt(int index) {
        return state().belts().get(Math.min(index, state().belts().size() - 1));
    }

    private List<Named> belt(int index) {
        TextField name =
                sheet.text(
                        "Belt's name",
                        7,
                        () -> beltAt(index).name(),
                        t ->
                                draft.changeBelt(
                                        index,
                                        new BeltRow(
                                                t, beltAt(index).length(), beltAt(index).path())));
        TextField length =
                sheet.text(
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
                sheet.text(
                        "Pulleys in the order of contact, with commas",
                        28,
                        () -> beltAt(index).path(),
                        t ->
                                draft.changeBelt(
                                        index,
                                        new BeltRow(
                                                beltAt(index).name(), beltAt(index).length(), t)));
        GridPane.setHgrow(path, Priority.ALWAYS);
        path.setMinWidth(0);
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
        return List.of(
                new Named("Belt", name),
                new Named("Length " + Lengths.unit(units()), length),
                new Named("Touches, in order", path),
                new Named("", remove));
    }
}
