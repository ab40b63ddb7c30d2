package tickover.console;

import java.util.List;
import java.util.function.Consumer;
import java.util.function.Function;
import java.util.function.Supplier;
import javafx.beans.property.ObjectProperty;
import javafx.collections.FXCollections;
import javafx.collections.ObservableList;
import javafx.scene.control.ChoiceBox;
import javafx.scene.control.Label;
import javafx.scene.control.TextField;
import javafx.scene.control.Tooltip;

/** Controls as this console uses them: every one has a name that can be read out. */
final class Controls {
    private Controls() {}

    static Tooltip tip(String words) {
        return new Tooltip(words);
    }

    static Label label(String words, String... styles) {
        Label label = new Label(words);
        label.setWrapText(true);
        label.getStyleClass().addAll(styles);
        return label;
    }

    /**
     * A field that hands its text over when it is left or Enter is pressed.
     *
     * @param name what it is, for those who do not see it
     * @param shown gives the text that it should show
     * @param typed takes the text
     */
    static TextField field(String name, Supplier<String> shown, Consumer<String> typed) {
        TextField field = new TextField(shown.get());
        field.setAccessibleText(name);
        field.setPromptText(name);
        field.setTooltip(tip(name));
        Runnable hand =
                () -> {
                    if (!field.getText().equals(shown.get())) {
                        typed.accept(field.getText());
                    }
                };
        field.setOnAction(e -> hand.run());
        field.focusedProperty()
                .addListener(
                        (o, before, now) -> {
                            if (!now) {
                                hand.run();
                            }
                        });
        return field;
    }

    /** Selects anew, for a box whose items have changed goes on showing what was there. */
    static <T> void select(ChoiceBox<T> box, T value) {
        box.getSelectionModel().clearSelection();
        box.setValue(value);
    }

    /** A box that offers what may change, and shows what is chosen by whomever. */
    static <T> ChoiceBox<T> choice(
            String name,
            ObservableList<T> offered,
            Function<T, String> words,
            ObjectProperty<T> of) {
        ChoiceBox<T> box = new ChoiceBox<>(offered);
        box.setAccessibleText(name);
        box.setTooltip(tip(name));
        box.setConverter(new Spoken<>(words));
        of.addListener((o, was, now) -> select(box, now));
        select(box, of.get());
        box.valueProperty()
                .addListener(
                        (o, was, now) -> {
                            if (now != null && !now.equals(of.get())) {
                                of.set(now);
                            }
                        });
        return box;
    }

    static <T> ChoiceBox<T> choice(
            String name,
            List<T> values,
            Function<T, String> words,
            Supplier<T> shown,
            Consumer<T> chosen) {
        ChoiceBox<T> box = new ChoiceBox<>(FXCollections.observableArrayList(values));
        box.setAccessibleText(name);
        box.setTooltip(tip(name));
        box.setConverter(new Spoken<>(words));
        box.setValue(shown.get());
        box.valueProperty()
                .addListener(
                        (o, before, now) -> {
                            if (now != null && !now.equals(shown.get())) {
                                chosen.accept(now);
                            }
                        });
        return box;
    }
}
