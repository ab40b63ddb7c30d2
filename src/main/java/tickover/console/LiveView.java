package tickover.console;

import java.util.List;
import javafx.beans.binding.Bindings;
import javafx.beans.property.BooleanProperty;
import javafx.beans.property.SimpleBooleanProperty;
import javafx.geometry.Pos;
import javafx.scene.Node;
import javafx.scene.control.Button;
import javafx.scene.control.Label;
import javafx.scene.control.ScrollPane;
import javafx.scene.input.KeyCode;
import javafx.scene.input.KeyEvent;
import javafx.scene.layout.BorderPane;
import javafx.scene.layout.FlowPane;
import javafx.scene.layout.HBox;
import javafx.scene.layout.Priority;
import javafx.scene.layout.Region;
import javafx.scene.layout.StackPane;
import javafx.scene.layout.VBox;
import tickover.console.model.BenchState;
import tickover.console.model.ConsoleModel;
import tickover.console.model.Hearing;
import tickover.console.model.LiveModel;
import tickover.console.model.LiveState;
import tickover.console.model.RoundState;

/** What the probe feels now: trace, waterfall, levels, and what is wrong with the signal. */
final class LiveView implements View {
    private static final double SIDE_EM = 27;
    private static final double SIDE_RATIO = 0.44;
    private static final String HOW_TO_POINT =
            "Point at a line, or use the arrow keys: it says whose it is.";

    private final ConsoleModel console;
    private final LiveModel model;
    private final BorderPane root = new BorderPane();
    private final TraceStrip trace;
    private final OrderFall fall;
    private final PartBars bars;
    private final QualityLines quality = new QualityLines(true);
    private final Label instruction = Controls.label("", "head");
    private final Label speed = Controls.label("", "huge");
    private final Label speedNote = Controls.label("", "soft");
    private final Label level = Controls.label("", "big");
    private final Button press = new Button();
    private final Button hear = tool("", "The chosen part through the loudspeaker, H");
    private final Button wav = tool("WAV (W)", "Save what was heard lately as WAV, W");
    private final Label heard = Controls.label("", "soft");
    private final Button swap = tool("", "What moves, or what knocks, K");
    private final VBox pointed = new VBox(2);
    private final Label order = Controls.label("", "head");
    private final BooleanProperty alone = new SimpleBooleanProperty();
    private final Label brief = FieldSheet.whole("");
    private final Button panels = tool("", "The waterfall alone, or with its panels, F");
    private Region side;
    private final Region tools;
    private final Label waiting = Controls.label("", "big");

    LiveView(ConsoleModel console, LivePulse pulse) {
        this.console = console;
        this.model = console.live();
        Paint paint = Paint.of(console.preferences().theme().get());
        this.trace = new TraceStrip(paint, model::frame);
        this.fall = new OrderFall(model, paint);
        this.bars = new PartBars(model::choose);
        tools = tools();
        root.setTop(top());
        root.setCenter(middle());
        side = side();
        // Large text may take no more than this from the waterfall.
        side.prefWidthProperty()
                .bind(
                        Bindings.createDoubleBinding(
                                () ->
                                        Math.min(
                                                SIDE_RATIO * root.getWidth(),
                                                SIDE_EM * Look.textPixels(console.preferences())),
                                root.widthProperty(),
                                console.preferences().textScale()));
        alone.set(Look.isLarge(console.preferences()));
        alone.addListener((o, was, now) -> lay());
        // Large words leave the waterfall no room beside a panel.
        console.preferences()
                .textScale()
                .addListener((o, was, now) -> alone.set(Look.isLarge(console.preferences())));
        lay();
        pulse.draws(root, this::draw);
        model.state().addListener((o, was, now) -> show(now));
        model.reachOrders().addListener((o, was, now) -> redraw());
        console.round().state().addListener((o, was, now) -> showStep());
        console.bench().state().addListener((o, was, now) -> showStep());
        console.preferences().theme().addListener((o, was, now) -> look());
        console.preferences().textScale().addListener((o, was, now) -> look());
        look();
        show(model.state().get());
        showStep();
    }

    /** The waterfall alone, or with the trace above and the panel beside it. */
    private void lay() {
        boolean wide = alone.get();
        root.setRight(wide ? null : side);
        trace.setVisible(!wide);
        trace.setManaged(!wide);
        tools.setVisible(!wide);
        tools.setManaged(!wide);
        brief.setVisible(wide);
        brief.setManaged(wide);
        showStep();
        panels.setText(wide ? "Panels (F)" : "Waterfall (F)");
    }

    private Node top() {
        press.setId("live-press");
        press.getStyleClass().addAll("accent", "big");
        press.setMinWidth(Region.USE_PREF_SIZE);
        press.setOnAction(e -> console.press());
        HBox.setHgrow(instruction, Priority.ALWAYS);
        instruction.setMaxWidth(Double.MAX_VALUE);
        instruction.setMinHeight(Region.USE_PREF_SIZE);
        brief.getStyleClass().add("head");
        panels.setId("panels");
        panels.setMinWidth(Region.USE_PREF_SIZE);
        panels.setOnAction(e -> alone.set(!alone.get()));
        HBox top = new HBox(14, press, instruction, brief, panels);
        top.setAlignment(Pos.CENTER_LEFT);
        top.getStyleClass().add("live-top");
        return top;
    }

    private Node middle() {
        fall.setId("fall");
        fall.setFocusTraversable(true);
        fall.getStyleClass().add("sketch");
        fall.setOnMouseClicked(e -> fall.requestFocus());
        fall.setOnKeyPressed(this::steer);
        HBox.setHgrow(order, Priority.ALWAYS);
        order.setMaxWidth(Double.MAX_VALUE);
        order.setMinHeight(Region.USE_PREF_SIZE);
        HBox head = new HBox(10, order, tools);
        head.setAlignment(Pos.CENTER_LEFT);
        VBox told = new VBox(2, head, pointed);
        told.getStyleClass().add("told");
        StackPane over = new StackPane(fall, waiting);
        waiting.setMouseTransparent(true);
        waiting.setMaxWidth(460);
        waiting.setAlignment(Pos.CENTER);
        waiting.getStyleClass().add("panel");
        VBox.setVgrow(over, Priority.ALWAYS);
        VBox box = new VBox(6, trace, over, told);
        box.getStyleClass().add("live-middle");
        return box;
    }

    private Region side() {
        level.setMinWidth(Region.USE_PREF_SIZE);
        hearing();
        VBox box =
                new VBox(
                        new VBox(0, speed, speedNote, level),
                        quality,
                        Controls.label("Levels of the parts, m/s² rms", "head"),
                        bars,
                        new FlowPane(6, 6, hear, wav),
                        heard);
        box.getStyleClass().addAll("page", "live-side");
        ScrollPane scroll = new ScrollPane(box);
        scroll.setFitToWidth(true);
        scroll.setId("live-side");
        scroll.getStyleClass().add("live-scroll");
        return scroll;
    }

    /** What changes the waterfall, below it. */
    private Region tools() {
        Button nearer = tool("Fewer (−)", "Fewer orders across the waterfall, minus");
        nearer.setOnAction(e -> model.reach(-1));
        swap.setId("swap");
        swap.setOnAction(e -> model.swap());
        model.showsKnocks().addListener((o, was, now) -> redraw());
        Button farther = tool("More (+)", "More orders across the waterfall, plus");
        farther.setOnAction(e -> model.reach(1));
        HBox box = new HBox(6, swap, nearer, farther);
        box.setMinWidth(Region.USE_PREF_SIZE);
        return box;
    }

    private void hearing() {
        Hearing hearing = model.hearing();
        hearing.speaker(new SpeakerOut());
        hear.setId("hear");
        hear.setOnAction(e -> model.hear());
        wav.setOnAction(e -> hearing.save());
        heard.textProperty().bind(hearing.words());
        Runnable shown =
                () -> {
                    boolean on = hearing.on().get();
                    hear.setText(on ? "Silence (H)" : "Hear it (H)");
                    for (Region of : List.of(wav, heard)) {
                        of.setVisible(on);
                        of.setManaged(on);
                    }
                };
        hearing.on().addListener((o, was, now) -> shown.run());
        shown.run();
    }

    private static Button tool(String words, String name) {
        Button button = new Button(words);
        button.setAccessibleText(name);
        button.setTooltip(Controls.tip(name));
        return button;
    }

    private void look() {
        Paint paint = Paint.of(console.preferences().theme().get());
        double em = Look.textPixels(console.preferences());
        trace.look(paint, em);
        fall.look(paint, em);
        redraw();
    }

    private void redraw() {
        swap.setText(model.showsKnocks().get() ? "What moves (K)" : "What knocks (K)");
        fall.draw();
        fall.annotate();
    }

    /** The trace with the waterfall, so that the window is handed to the screen only once. */
    private void draw() {
        trace.drawIfDue(fall.draw());
    }

    private void show(LiveState state) {
        speed.setText(state.running() ? state.speed() : "–");
        speedNote.setText(state.speedNote());
        level.setText(state.level());
        brief.setText(state.running() ? state.speed() : "");
        quality.show(state);
        bars.show(state);
        point(state.pointed());
        showStep();
        boolean rows = model.fall().rows() > 0;
        waiting.setVisible(!rows);
        waiting.setText(
                state.running()
                        ? state.speedNote()
                        : "Nothing is listened to. Start the round: space bar.");
        fall.annotate();
    }

    /** Labels are kept, for new ones have to be dressed anew, which costs more than all drawing. */
    private void point(List<String> sentences) {
        order.setText(sentences.isEmpty() ? HOW_TO_POINT : sentences.get(0));
        List<String> whose = sentences.subList(Math.min(1, sentences.size()), sentences.size());
        while (pointed.getChildren().size() < whose.size()) {
            Label label = Controls.label("", "text-words");
            // Never cut short: the waterfall gives way.
            label.setMinHeight(Region.USE_PREF_SIZE);
            pointed.getChildren().add(label);
        }
        for (int i = 0; i < pointed.getChildren().size(); i++) {
            Label label = (Label) pointed.getChildren().get(i);
            boolean used = i < whose.size();
            label.setText(used ? whose.get(i) : "");
            label.setVisible(used);
            label.setManaged(used);
        }
    }

    /** What to do now, on the round or at the bench. */
    private void showStep() {
        BenchState bench = console.bench().state().get();
        RoundState round = console.round().state().get();
        String step = bench.running() ? bench.instruction() : round.instruction();
        // Beside the waterfall alone, what is pointed at needs the room more.
        boolean points = model.state().get().pointedOrders() > 0;
        instruction.setText(alone.get() && points ? "" : step);
        press.setText(bench.running() ? bench.pressWords() : round.pressWords());
    }

    @Override
    public Node node() {
        return root;
    }

    @Override
    public Node first() {
        return fall;
    }

    @Override
    public boolean pressed(KeyEvent e) {
        boolean button = ProbeKeys.isPress(e, root);
        if (button) {
            console.press();
        }
        return button;
    }

    /** Keys on the waterfall itself. */
    private void steer(KeyEvent e) {
        if (e.isShortcutDown()) {
            return;
        }
        switch (e.getCode()) {
            case LEFT, RIGHT -> {
                boolean right = e.getCode() == KeyCode.RIGHT;
                if (e.isShiftDown()) {
                    model.pointAside(right ? 1 : -1);
                } else {
                    model.pointNextLine(right);
                }
            }
            case UP -> model.chooseNext(-1);
            case DOWN -> model.chooseNext(1);
            case PLUS, ADD, EQUALS -> model.reach(1);
            case MINUS, SUBTRACT -> model.reach(-1);
            case K -> model.swap();
            case H -> model.hear();
            case W -> model.hearing().save();
            case F -> alone.set(!alone.get());
            case ESCAPE -> model.point(0);
            default -> {
                return;
            }
        }
        e.consume();
    }
}
