package tickover.console;

import java.util.Arrays;
import java.util.List;
import javafx.beans.property.IntegerProperty;
import javafx.scene.Node;
import javafx.scene.control.Button;
import javafx.scene.control.TextField;
import javafx.scene.layout.GridPane;
import javafx.scene.layout.Priority;
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

    Node node() {
        GridPane grid = FieldSheet.grid();
        List<String> heads =
                List.of("Belt", "Length " + Lengths.unit(units()), "Touches, in order", "");
        for (int i = 0; i < heads.size(); i++) {
            grid.add(FieldSheet.whole(heads.get(i)), i, 0);
        }
        for (int i = 0; i < state().belts().size(); i++) {
            beltRow(grid, i);
        }
        Button add = new Button("Add a _belt");
        add.setOnAction(e -> belt.set(draft.addBelt()));
        return FieldSheet.panel(
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
}
