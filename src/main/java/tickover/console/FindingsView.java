package tickover.console;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import javafx.geometry.Pos;
import javafx.scene.Node;
import javafx.scene.control.Button;
import javafx.scene.control.ChoiceBox;
import javafx.scene.control.Label;
import javafx.scene.control.ProgressBar;
import javafx.scene.control.ProgressIndicator;
import javafx.scene.control.ScrollPane;
import javafx.scene.control.SplitPane;
import javafx.scene.control.TitledPane;
import javafx.scene.input.KeyEvent;
import javafx.scene.layout.BorderPane;
import javafx.scene.layout.GridPane;
import javafx.scene.layout.HBox;
import javafx.scene.layout.Priority;
import javafx.scene.layout.Region;
import javafx.scene.layout.VBox;
import javafx.util.StringConverter;
import tickover.console.model.ConsoleModel;
import tickover.console.model.FindingsModel;
import tickover.console.model.FindingsState;
import tickover.drive.DriveModel;
import tickover.store.KeptVisit;

/** What the captures say: on the drawing, as sentences, with reasons and the next thing to do. */
final class FindingsView implements View {
    private static final int LISTED = 5;
    private static final double TITLE_ARROW_PIXELS = 60;
    private static final double BAR_PIXELS = 60;
    private static final double WORTH_A_MARK = 0.1;

    private final ConsoleModel console;
    private final FindingsModel model;
    private final BorderPane root = new BorderPane();
    private final EngineMap map = new EngineMap();
    private final VBox words = new VBox();
    private final Button report = new Button("Write the _report");
    private final List<TitledPane> panes = new ArrayList<>();

    FindingsView(ConsoleModel console) {
        this.console = console;
        this.model = console.findings();
        words.getStyleClass().add("page");
        ScrollPane scroll = new ScrollPane(words);
        scroll.setFitToWidth(true);
        SplitPane split = new SplitPane(map, scroll);
        split.setDividerPositions(0.45);
        root.setTop(tools());
        root.setCenter(split);
        map.onChosen(this::tell);
        model.state().addListener((o, before, now) -> show());
        show();
    }

    @Override
    public Node node() {
        return root;
    }

    @Override
    public Node first() {
        return report;
    }

    @Override
    public boolean pressed(KeyEvent e) {
        return false;
    }

    private Node tools() {
        report.setId("write-report");
        report.getStyleClass().add("accent");
        report.setOnAction(e -> model.report());
        ProgressIndicator busy = new ProgressIndicator();
        busy.setPrefSize(24, 24);
        busy.visibleProperty().bind(model.busy());
        busy.setAccessibleText("Computing");
        HBox bar = new HBox(10, visits(), report, busy);
        bar.setAlignment(Pos.CENTER_LEFT);
        bar.getStyleClass().add("page");
        return bar;
    }

    private Node visits() {
        ChoiceBox<KeptVisit> visits = new ChoiceBox<>(model.visits());
        visits.setId("visits");
        visits.setAccessibleText("Which visit");
        visits.getStyleClass().add("visits");
        visits.setConverter(
                new StringConverter<>() {
                    @Override
                    public String toString(KeptVisit visit) {
                        return visit == null ? "Which visit?" : FindingsModel.words(visit);
                    }

                    @Override
                    public KeptVisit fromString(String text) {
                        throw new UnsupportedOperationException("visits are chosen, not typed");
                    }
                });
        visits.valueProperty()
                .addListener(
                        (o, before, now) -> {
                            if (now != null && !model.isShown(now)) {
                                model.show(now.id());
                            }
                        });
        Runnable choose =
                () ->
                        Controls.select(
                                visits,
                                model.visits().stream()
                                        .filter(model::isShown)
                                        .findFirst()
                                        .orElse(null));
        model.state().addListener((o, before, now) -> choose.run());
        // A list that was read anew shows nothing as chosen, though the findings are the same.
        model.busy()
                .addListener(
                        (o, before, now) -> {
                            if (!now) {
                                choose.run();
                            }
                        });
        return visits;
    }

    private void show() {
        FindingsState state = model.state().get();
        Map<String, EngineMap.Said> said = new HashMap<>();
        for (FindingsState.Suspect s : state.suspects()) {
            if (s.probability() >= WORTH_A_MARK) {
                said.put(s.component(), new EngineMap.Said(EngineMap.Mark.SUSPECT, s.percent()));
            }
        }
        console.vehicle()
                .ifPresent(
                        v ->
                                map.show(
                                        DriveModel.of(v),
                                        said.keySet().stream()
                                                .filter(k -> v.pulley(k).isEmpty())
                                                .filter(k -> !k.startsWith("belt:"))
                                                .filter(k -> !k.equals("none"))
                                                .toList(),
                                        said));
        words.getChildren().clear();
        if (state.title().isEmpty()) {
            words.getChildren()
                    .add(
                            Controls.label(
                                    "Nothing has been captured yet. Walk round the engine first"
                                            + " (3 Round).",
                                    "big"));
            return;
        }
        words.getChildren()
                .addAll(
                        Controls.label(state.title(), "soft"),
                        Controls.label(state.headline(), "big"),
                        Controls.label(state.howSure()),
                        suspects(state));
        if (!state.tests().isEmpty()) {
            words.getChildren().add(test(state.tests().get(0)));
        }
        addList("What changed since the visit before", state.changes(), true);
        addList("What limits the captures", state.quality(), false);
    }

    /** Says how likely a part is that was chosen on the drawing, and opens its reasons. */
    private void tell(String part) {
        List<FindingsState.Suspect> suspects = model.state().get().suspects();
        console.say(model.chanceOf(part));
        for (int i = 0; i < Math.min(panes.size(), suspects.size()); i++) {
            if (suspects.get(i).component().equals(part)) {
                panes.get(i).setExpanded(true);
                panes.get(i).requestFocus();
                return;
            }
        }
    }

    private Node suspects(FindingsState state) {
        VBox box = new VBox(4);
        panes.clear();
        for (FindingsState.Suspect s :
                state.suspects().subList(0, Math.min(LISTED, state.suspects().size()))) {
            TitledPane pane = new TitledPane();
            pane.setExpanded(box.getChildren().isEmpty());
            Region title = bar(s);
            // The title's own arrow and padding; without a bound a long line would widen the page.
            title.maxWidthProperty().bind(pane.widthProperty().subtract(TITLE_ARROW_PIXELS));
            title.prefWidthProperty().bind(title.maxWidthProperty());
            pane.setMinWidth(0);
            pane.setGraphic(title);
            pane.setText("");
            VBox reasons = new VBox(4);
            for (FindingsState.Reason r : s.reasons()) {
                reasons.getChildren()
                        .add(Controls.label((r.speaksFor() ? "+  " : "−  ") + r.sentence()));
            }
            if (s.reasons().isEmpty()) {
                reasons.getChildren().add(Controls.label("Nothing speaks for or against it."));
            }
            pane.setContent(reasons);
            pane.setAccessibleText(s.name() + ", " + s.percent() + ", " + s.fault());
            box.getChildren().add(pane);
            panes.add(pane);
        }
        return box;
    }

    private static Region bar(FindingsState.Suspect s) {
        ProgressBar bar = new ProgressBar(s.probability());
        bar.setPrefWidth(BAR_PIXELS);
        bar.setMinWidth(BAR_PIXELS);
        Label percent = Controls.label(s.percent(), "head", "percent");
        percent.setMinWidth(Region.USE_PREF_SIZE);
        Label name = Controls.label(s.name() + ": " + s.fault());
        GridPane row = new GridPane();
        row.setHgap(10);
        row.addRow(0, percent, bar, name);
        GridPane.setHgrow(name, Priority.ALWAYS);
        // A title asks how high its words are before it says how wide.
        name.widthProperty()
                .addListener(
                        (o, was, now) ->
                                row.setPrefHeight(
                                        Math.max(
                                                percent.prefHeight(-1),
                                                name.prefHeight(now.doubleValue()))));
        return row;
    }

    private static Node test(FindingsState.Test test) {
        VBox box = new VBox(6);
        box.getStyleClass().add("panel");
        box.getChildren()
                .addAll(
                        Controls.label("What to do next, " + test.minutes(), "head"),
                        Controls.label(test.sentence()));
        VBox cautions = new VBox(4);
        test.cautions().forEach(c -> cautions.getChildren().add(Controls.label("!  " + c)));
        TitledPane pane = new TitledPane("Before you do it", cautions);
        pane.setExpanded(true);
        box.getChildren().add(pane);
        return box;
    }

    private void addList(String title, List<String> sentences, boolean open) {
        if (sentences.isEmpty()) {
            return;
        }
        VBox list = new VBox(4);
        sentences.forEach(s -> list.getChildren().add(Controls.label(s)));
        TitledPane pane = new TitledPane(title, list);
        pane.setExpanded(open);
        words.getChildren().add(pane);
    }
}
