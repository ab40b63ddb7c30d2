package tickover.console;

import java.time.LocalDateTime;
import java.time.ZoneId;
import java.util.List;
import java.util.stream.Stream;
import javafx.scene.Node;
import javafx.scene.control.Button;
import javafx.scene.control.ChoiceBox;
import javafx.scene.control.Label;
import javafx.scene.control.ListCell;
import javafx.scene.control.ListView;
import javafx.scene.control.ProgressIndicator;
import javafx.scene.control.ScrollPane;
import javafx.scene.control.SplitPane;
import javafx.scene.control.TextField;
import javafx.scene.input.KeyEvent;
import javafx.scene.layout.BorderPane;
import javafx.scene.layout.FlowPane;
import javafx.scene.layout.Region;
import javafx.scene.layout.VBox;
import javafx.scene.text.Text;
import tickover.console.model.ConsoleModel;
import tickover.console.model.HistoryModel;
import tickover.console.model.HistoryState;
import tickover.drive.PartWords;

/** How the fleet stands, and each part of a vehicle against its own past. */
final class HistoryView implements View {
    private static final String WHOLE = "the whole front";

    /** A row's padding and the list's scroll bar. */
    private static final double ROW_EDGE_PIXELS = 40;

    private final HistoryModel model;
    private final BorderPane root = new BorderPane();
    private final ListView<HistoryState.Standing> fleet = new ListView<>();
    private final ChoiceBox<String> series = new ChoiceBox<>();
    private final TrendStrip strip = new TrendStrip();
    private final Label unit = Controls.label("", "huge");
    private final VBox words = new VBox(6);
    private final VBox marks = new VBox(4);
    private final TextField text = new TextField();
    private final ChoiceBox<String> part = new ChoiceBox<>();
    private boolean showing;

    HistoryView(ConsoleModel console) {
        this.model = console.history();
        prepareFleet();
        series.setId("series");
        series.setAccessibleText("Which part, and where it was measured");
        series.getStyleClass().add("series");
        series.getSelectionModel()
                .selectedIndexProperty()
                .addListener(
                        (o, before, now) -> {
                            if (!showing) {
                                model.pick(now.intValue());
                            }
                        });
        ProgressIndicator busy = new ProgressIndicator();
        busy.setPrefSize(24, 24);
        busy.visibleProperty().bind(model.busy());
        busy.setAccessibleText("Reading the log");
        unit.setMinWidth(Region.USE_PREF_SIZE);
        series.setMinWidth(0);
        part.setMinWidth(0);
        text.setMinWidth(0);
        FlowPane head = new FlowPane(10, 6, unit, series, busy);
        Label legend =
                Controls.label(
                        "A dot per visit, in dB re 1 m/s². Shaded: where the next visit of an"
                                + " unchanged part would lie. Open rings: before a repair.",
                        "soft");
        VBox page = new VBox(head, strip.node(), legend, words, marks, entry());
        page.getStyleClass().add("page");
        page.setMinWidth(0);
        ScrollPane scroll = new ScrollPane(page);
        scroll.setFitToWidth(true);
        SplitPane split = new SplitPane(fleet, scroll);
        split.setDividerPositions(0.36);
        root.setCenter(split);
        model.state().addListener((o, before, now) -> show());
        show();
    }

    @Override
    public Node node() {
        return root;
    }

    @Override
    public Node first() {
        return fleet;
    }

    @Override
    public boolean pressed(KeyEvent e) {
        return false;
    }

    private void prepareFleet() {
        fleet.setId("fleet");
        fleet.setAccessibleText("Vehicles, what needs a look most first");
        fleet.setCellFactory(view -> new Cell());
        fleet.setPlaceholder(
                Controls.label("No vehicle has been here yet. Take the first one on 1 Vehicle."));
        fleet.getSelectionModel()
                .selectedItemProperty()
                .addListener(
                        (o, before, now) -> {
                            if (!showing && now != null) {
                                model.show(now.unit());
                            }
                        });
    }

    private Node entry() {
        text.setId("remark");
        text.setPromptText("What was done or seen");
        text.setAccessibleText("What was done or seen");
        text.setPrefColumnCount(28);
        part.setId("remark-part");
        part.setConverter(new Spoken<>(PartWords::plain));
        part.setAccessibleText("Which part it is about");
        part.getStyleClass().add("part-choice");
        Button repair = new Button("Mark a _repair");
        repair.setId("mark-repair");
        repair.setOnAction(
                e -> {
                    model.repair(part(), text.getText(), LocalDateTime.now(ZoneId.systemDefault()));
                    text.clear();
                });
        Button note = new Button("Keep a _note");
        note.setId("keep-note");
        note.setOnAction(
                e -> {
                    model.note(part(), text.getText(), LocalDateTime.now(ZoneId.systemDefault()));
                    text.clear();
                });
        return new FlowPane(10, 6, text, part, repair, note);
    }

    private String part() {
        String chosen = part.getValue();
        return chosen == null || chosen.equals(WHOLE) ? "" : chosen;
    }

    private void show() {
        HistoryState state = model.state().get();
        showing = true;
        fleet.getItems().setAll(state.fleet());
        fleet.getItems().stream()
                .filter(s -> s.unit().equals(state.unit()))
                .findFirst()
                .ifPresent(fleet.getSelectionModel()::select);
        unit.setText(state.unit());
        series.getItems().setAll(state.series().stream().map(HistoryState.Series::name).toList());
        series.setVisible(!state.series().isEmpty());
        series.getSelectionModel().select(state.picked());
        String before = part.getValue();
        List<String> parts =
                Stream.concat(
                                Stream.of(WHOLE),
                                state.series().stream()
                                        .map(s -> s.judged().trend().series().place().part())
                                        .distinct())
                        .toList();
        part.getItems().setAll(parts);
        part.setValue(parts.contains(before) ? before : WHOLE);
        showing = false;
        words.getChildren().clear();
        if (state.shown().isPresent()) {
            HistoryState.Series s = state.shown().get();
            strip.show(s.judged().trend(), "Level of " + s.name() + " over the visits");
            for (String sentence : s.sentences()) {
                words.getChildren()
                        .add(
                                words.getChildren().isEmpty() && s.judged().needsAttention()
                                        ? Controls.label("!  " + sentence, "complaint")
                                        : Controls.label(sentence));
            }
        } else {
            strip.clear();
            words.getChildren()
                    .add(
                            Controls.label(
                                    "Nothing has been measured on it yet: walk round the engine"
                                            + " (3 Round)."));
        }
        marks.getChildren().clear();
        if (!state.marks().isEmpty()) {
            marks.getChildren().add(Controls.label("Repairs and notes", "head"));
            state.marks().forEach(m -> marks.getChildren().add(Controls.label(m)));
        }
    }

    /** A vehicle, how urgent it is, and why. */
    private static final class Cell extends ListCell<HistoryState.Standing> {
        Cell() {
            setPrefWidth(0);
        }

        @Override
        protected void updateItem(HistoryState.Standing standing, boolean empty) {
            super.updateItem(standing, empty);
            if (empty || standing == null) {
                setGraphic(null);
                setAccessibleText("");
                return;
            }
            String marks = "!".repeat(standing.urgency());
            VBox lines = new VBox(2);
            lines.getChildren()
                    .addAll(
                            line((marks + "  " + standing.unit()).strip(), "big-words"),
                            line(standing.urgencyWords() + "; " + standing.seen(), "soft-words"));
            standing.reasons().forEach(r -> lines.getChildren().add(line(r, "text-words")));
            setGraphic(lines);
            setAccessibleText(
                    standing.unit()
                            + ", "
                            + standing.urgencyWords()
                            + ". "
                            + String.join(" ", standing.reasons()));
        }

        /** Words that wrap: a list asks its rows how high they are before it says how wide. */
        private Text line(String words, String style) {
            Text text = new Text(words);
            text.getStyleClass().add(style);
            text.wrappingWidthProperty()
                    .bind(getListView().widthProperty().subtract(ROW_EDGE_PIXELS));
            return text;
        }
    }
}
