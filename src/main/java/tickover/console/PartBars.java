package tickover.console;

import java.util.ArrayList;
import java.util.List;
import java.util.function.Consumer;
import javafx.scene.control.Button;
import javafx.scene.control.Label;
import javafx.scene.layout.ColumnConstraints;
import javafx.scene.layout.GridPane;
import javafx.scene.layout.Priority;
import javafx.scene.layout.Region;
import javafx.scene.layout.StackPane;
import javafx.scene.layout.VBox;
import tickover.console.model.LiveState;
import tickover.drive.PartWords;

/**
 * The level of every part as a bar with its number, the standard error as a bracket at its end. A
 * part is a button: it lays its lines over the waterfall.
 */
final class PartBars extends VBox {
    private final Label forming = Controls.label("", "soft");
    private final GridPane grid = new GridPane();
    private final Consumer<String> chosen;
    private final List<Row> rows = new ArrayList<>();

    private static final class Row {
        private final Button name = new Button();
        private final Bar bar = new Bar();
        private final Label words = new Label();
    }

    /** A bar and its bracket, as wide as there is room. */
    private static final class Bar extends StackPane {
        private final Region length = new Region();
        private final Region error = new Region();
        private double lengthRatio;
        private double errorRatio;

        Bar() {
            length.getStyleClass().add("bar-length");
            error.getStyleClass().add("bar-error");
            getStyleClass().add("bar");
            getChildren().addAll(length, error);
            length.setManaged(false);
            error.setManaged(false);
            setMinWidth(24);
            setPrefWidth(60);
        }

        void set(double toLength, double toError) {
            if (toLength != lengthRatio || toError != errorRatio) {
                lengthRatio = toLength;
                errorRatio = toError;
                requestLayout();
            }
        }

        @Override
        protected void layoutChildren() {
            double w = getWidth();
            double h = getHeight();
            length.resizeRelocate(0, 0, w * lengthRatio, h);
            double from = Math.max(0, lengthRatio - errorRatio) * w;
            double to = Math.min(1, lengthRatio + errorRatio) * w;
            error.setVisible(errorRatio > 0);
            error.resizeRelocate(from, h * 0.3, Math.max(2, to - from), h * 0.4);
        }
    }

    PartBars(Consumer<String> chosen) {
        this.chosen = chosen;
        getStyleClass().add("bars");
        grid.setHgap(8);
        grid.setVgap(3);
        ColumnConstraints name = new ColumnConstraints();
        ColumnConstraints bar = new ColumnConstraints();
        bar.setHgrow(Priority.ALWAYS);
        ColumnConstraints words = new ColumnConstraints();
        grid.getColumnConstraints().addAll(name, bar, words);
        getChildren().addAll(grid, forming);
    }

    void show(LiveState state) {
        forming.setText(state.forming());
        if (rows.size() != state.bars().size()) {
            rows.clear();
            grid.getChildren().clear();
            for (int i = 0; i < state.bars().size(); i++) {
                Row row = new Row();
                row.name.getStyleClass().addAll("flat", "bar-name");
                row.name.setMaxWidth(Double.MAX_VALUE);
                row.name.setMinWidth(Region.USE_PREF_SIZE);
                row.words.setMinWidth(Region.USE_PREF_SIZE);
                String part = state.bars().get(i).part();
                row.name.setOnAction(e -> chosen.accept(part));
                rows.add(row);
                grid.addRow(i, row.name, row.bar, row.words);
            }
        }
        for (int i = 0; i < rows.size(); i++) {
            LiveState.Bar bar = state.bars().get(i);
            Row row = rows.get(i);
            boolean over = bar.part().equals(state.chosen());
            String sign =
                    (bar.aimed() ? "▶ " : "") + PartWords.plain(bar.part()) + (over ? " ┊" : "");
            if (!sign.equals(row.name.getText())) {
                row.name.setText(sign);
                row.name.setAccessibleText(
                        "Lines of " + PartWords.the(bar.part()) + " over the waterfall");
            }
            // Only where it changes, for every change of classes dresses the button anew.
            if (over != row.name.getStyleClass().contains("row-chosen")) {
                if (over) {
                    row.name.getStyleClass().add("row-chosen");
                } else {
                    row.name.getStyleClass().remove("row-chosen");
                }
            }
            row.bar.set(bar.lengthRatio(), bar.errorRatio());
            row.words.setText(bar.words());
        }
    }
}
