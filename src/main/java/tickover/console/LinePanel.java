package tickover.console;

import java.util.List;
import javafx.beans.property.ObjectProperty;
import javafx.collections.ObservableList;
import javafx.scene.Node;
import javafx.scene.control.Button;
import javafx.scene.control.ChoiceBox;
import javafx.scene.control.ProgressIndicator;
import javafx.scene.control.TextField;
import javafx.scene.control.TitledPane;
import javafx.scene.layout.FlowPane;
import javafx.scene.layout.GridPane;
import javafx.scene.layout.Region;
import javafx.scene.layout.VBox;
import tickover.console.model.ConsoleModel;
import tickover.console.model.LineSetup;
import tickover.console.model.LineSetup.Device;
import tickover.console.model.RoundState;
import tickover.diagnose.Mount;
import tickover.drive.Pulley;

/** What to record from; closed until somebody wants to choose. */
final class LinePanel {
    private LinePanel() {}

    /**
     * Makes the panel.
     *
     * @param atEngine whether it is for the engine, with mount and marked pulley, or for the bench
     */
    static Node of(ConsoleModel console, boolean atEngine) {
        LineSetup lines = console.lines();
        Button ask = new Button("_Look for devices");
        ask.setId(atEngine ? "ask-ports" : "ask-ports-bench");
        ask.setOnAction(e -> lines.ask());
        ask.disableProperty().bind(lines.busy());
        ProgressIndicator busy = new ProgressIndicator();
        busy.setPrefSize(24, 24);
        busy.visibleProperty().bind(lines.busy());
        busy.setAccessibleText("Asking the ports");
        GridPane grid = FieldSheet.grid();
        int row = 0;
        grid.add(new FlowPane(8, 4, ask, busy), 0, row++, 2, 1);
        grid.addRow(
                row++,
                FieldSheet.whole("Probe"),
                device("Which probe", lines.probes(), lines.probe()));
        FieldSheet sheet = new FieldSheet();
        if (atEngine) {
            grid.addRow(
                    row++,
                    FieldSheet.whole("Speed"),
                    device("Where the speed comes from", lines.speeds(), lines.speed()));
            grid.addRow(
                    row++,
                    FieldSheet.whole("Held"),
                    Controls.choice(
                            "How the probe is held",
                            List.of(Mount.values()),
                            RoundState::held,
                            lines.mount()::get,
                            lines.mount()::set));
            TextField marked =
                    sheet.text(
                            "Pulley with the tach's mark",
                            10,
                            lines.marked()::get,
                            word -> mark(console, word));
            lines.marked().addListener((o, was, now) -> sheet.refresh());
            grid.addRow(row++, FieldSheet.whole("Mark on"), marked);
        }
        TextField marks = sheet.text("Marks on it", 4, lines.marks()::get, lines.marks()::set);
        grid.addRow(row, FieldSheet.whole("Marks"), marks);
        VBox content = new VBox(grid);
        content.setMinWidth(0);
        TitledPane pane = new TitledPane("Probe and speed", content);
        pane.setExpanded(false);
        pane.setMinWidth(0);
        return pane;
    }

    private static void mark(ConsoleModel console, String word) {
        List<String> known =
                console.vehicle().stream()
                        .flatMap(v -> v.pulleys().stream())
                        .map(Pulley::name)
                        .toList();
        if (known.isEmpty() || known.contains(word.strip())) {
            console.lines().marked().set(word.strip());
        } else {
            console.say(
                    "There is no pulley '"
                            + word.strip()
                            + "'; the drive has "
                            + String.join(", ", known)
                            + ".");
        }
    }

    private static Region device(
            String name, ObservableList<Device> offered, ObjectProperty<Device> of) {
        ChoiceBox<Device> box = Controls.choice(name, offered, Device::words, of);
        box.setMinWidth(0);
        return box;
    }
}
