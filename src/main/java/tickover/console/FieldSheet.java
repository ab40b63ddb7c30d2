package tickover.console;

import java.util.ArrayList;
import java.util.List;
import java.util.function.Consumer;
import java.util.function.Function;
import java.util.function.Supplier;
import javafx.scene.Node;
import javafx.scene.control.Button;
import javafx.scene.control.ChoiceBox;
import javafx.scene.control.Control;
import javafx.scene.control.Label;
import javafx.scene.control.TextField;
import javafx.scene.layout.GridPane;
import javafx.scene.layout.Priority;
import javafx.scene.layout.Region;
import javafx.scene.layout.VBox;

/** Fields that follow what they show; one that is being typed in is left alone. */
final class FieldSheet {
    private final List<Runnable> refreshers = new ArrayList<>();

    /** Brings every field up to date. */
    void refresh() {
        List.copyOf(refreshers).forEach(Runnable::run);
    }

    /** Forgets all fields. */
    void clear() {
        refreshers.clear();
    }

    TextField text(String name, int columns, Supplier<String> shown, Consumer<String> typed) {
        TextField field = Controls.field(name, shown, typed);
        field.setPrefColumnCount(columns);
        field.setMinWidth(Region.USE_PREF_SIZE);
        refreshers.add(
                () -> {
                    if (!field.isFocused() && !field.getText().equals(shown.get())) {
                        field.setText(shown.get());
                    }
                });
        return field;
    }

    <T> ChoiceBox<T> choice(
            String name,
            List<T> values,
            Function<T, String> words,
            Supplier<T> shown,
            Consumer<T> chosen) {
        ChoiceBox<T> box = Controls.choice(name, values, words, shown, chosen);
        refreshers.add(() -> box.setValue(shown.get()));
        return box;
    }

    /** A label that is never cut short. */
    static Label whole(String words) {
        Label label = new Label(words);
        label.setMinWidth(Region.USE_PREF_SIZE);
        return label;
    }

    static GridPane grid() {
        GridPane grid = new GridPane();
        grid.setHgap(8);
        grid.setVgap(6);
        return grid;
    }

    /** A field and what stands before it; nothing before a button. */
    record Named(String name, Control field) {}

    /**
     * Fields with their names, in rows; the last of each row takes what room there is.
     *
     * @param perRow how many stand in a row
     */
    static GridPane named(int perRow, List<Named> fields) {
        GridPane grid = grid();
        for (int i = 0; i < fields.size(); i++) {
            Control field = fields.get(i).field();
            int column = 2 * (i % perRow);
            grid.add(whole(fields.get(i).name()), column, i / perRow);
            grid.add(field, column + 1, i / perRow);
            if (i % perRow == perRow - 1 && !(field instanceof Button)) {
                field.setMinWidth(0);
                field.setMaxWidth(Double.MAX_VALUE);
                GridPane.setHgrow(field, Priority.ALWAYS);
            }
        }
        return grid;
    }

    static Node panel(String title, Node... content) {
        VBox panel = new VBox(Controls.label(title, "head"));
        panel.getChildren().addAll(content);
        panel.getStyleClass().add("panel");
        return panel;
    }
}
