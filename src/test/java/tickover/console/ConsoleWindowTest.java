package tickover.console;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;
import javafx.scene.Node;
import javafx.scene.Scene;
import javafx.scene.control.Button;
import javafx.scene.control.Labeled;
import javafx.scene.control.ScrollPane;
import javafx.scene.control.TextField;
import javafx.scene.input.KeyCode;
import javafx.stage.Stage;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.ExtendWith;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.testfx.api.FxRobot;
import org.testfx.framework.junit5.ApplicationExtension;
import org.testfx.framework.junit5.Start;
import org.testfx.util.WaitForAsyncUtils;
import tickover.console.model.ConsoleModel;
import tickover.console.model.ConsoleOptions;
import tickover.console.model.DirectErrands;
import tickover.console.model.Screen;
import tickover.console.model.Touch;

/** The console's window, driven by keyboard and mouse without a display. */
@ExtendWith(ApplicationExtension.class)
class ConsoleWindowTest {
    private static final int PATIENCE_S = 60;

    /** Length of captures where little hangs on what they say, s. */
    private static final double BRIEF_S = 3;

    @TempDir static Path temp;
    private ConsoleModel console;
    private Scene scene;

    @Start
    void open(Stage stage) {
        console =
                new ConsoleModel(
                        new ConsoleOptions(temp.resolve("data-" + System.nanoTime()), true),
                        new DirectErrands());
        scene = new Shell(console).scene(1280, 800);
        stage.setScene(scene);
        stage.sizeToScene();
        stage.show();
    }

    @AfterEach
    void unplug(FxRobot robot) {
        robot.interact(console::close);
    }

    private void await(java.util.concurrent.Callable<Boolean> condition) throws Exception {
        WaitForAsyncUtils.waitFor(PATIENCE_S, TimeUnit.SECONDS, condition);
        WaitForAsyncUtils.waitForFxEvents();
    }

    private static void type(FxRobot robot, KeyCode... keys) {
        robot.press(keys);
        for (int i = keys.length - 1; i >= 0; i--) {
            robot.release(keys[i]);
        }
        WaitForAsyncUtils.waitForFxEvents();
    }

    private void goes(FxRobot robot, KeyCode digit, Screen screen) throws Exception {
        type(robot, KeyCode.CONTROL, digit);
        await(() -> console.screen().get() == screen);
    }

    /** The whole job in the simulated console, with keys and nothing else. */
    @Test
    void fromAnEmptyLogToTheReportByKeyboardAlone(FxRobot robot) throws Exception {
        robot.interact(() -> console.round().captureLength(BRIEF_S));
        type(robot, KeyCode.ALT, KeyCode.S);
        await(() -> console.screen().get() == Screen.DRIVE);
        type(robot, KeyCode.CONTROL, KeyCode.P);
        await(() -> console.message().get().contains("routing sketch is"));
        type(robot, KeyCode.CONTROL, KeyCode.S);
        await(() -> console.screen().get() == Screen.ROUND);
        assertEquals("ML-07", console.unit().get());
        type(robot, KeyCode.F1);
        assertFalse(robot.lookup("Keys").lookup(".huge").queryAll().isEmpty());
        goes(robot, KeyCode.DIGIT3, Screen.ROUND);
        assertTrue(robot.lookup("#press").query().isFocused(), "the keys are gone");
        goes(robot, KeyCode.DIGIT1, Screen.VEHICLE);
        TextField search = robot.lookup("#search").query();
        robot.interact(search::requestFocus);
        robot.write("07");
        type(robot, KeyCode.ENTER);
        await(() -> console.screen().get() == Screen.ROUND);
        type(robot, KeyCode.SPACE);
        await(() -> console.round().state().get().speed().contains("rpm"));
        goes(robot, KeyCode.DIGIT4, Screen.LIVE);
        type(robot, KeyCode.F12);
        await(() -> console.round().state().get().capturing());
        goes(robot, KeyCode.DIGIT3, Screen.ROUND);
        await(
                () ->
                        console.round().state().get().touches().stream()
                                .anyMatch(t -> t.state() == Touch.State.GOOD));
        type(robot, KeyCode.ALT, KeyCode.F);
        await(() -> console.screen().get() == Screen.FINDINGS);
        await(() -> !console.findings().state().get().title().isEmpty());
        type(robot, KeyCode.CONTROL, KeyCode.R);
        await(() -> console.message().get().startsWith("The report is "));
        goes(robot, KeyCode.DIGIT6, Screen.HISTORY);
        goes(robot, KeyCode.DIGIT7, Screen.COMPARE);
        assertEquals("", console.compare().state().get().title());
        goes(robot, KeyCode.DIGIT9, Screen.LISTEN);
        assertTrue(console.listen().state().get().ready());
        bench(robot);
        type(robot, KeyCode.F1);
        assertFalse(robot.lookup("Keys").queryAll().isEmpty());
        type(robot, KeyCode.F1);
        Path reports = console.options().dataDir().resolve("reports");
        try (Stream<Path> all = Files.list(reports)) {
            assertEquals(1, all.filter(f -> f.toString().endsWith(".html")).count());
        }
    }

    private void bench(FxRobot robot) throws Exception {
        goes(robot, KeyCode.DIGIT8, Screen.BENCH);
        assertEquals("compressor", console.bench().setup().part().get().part());
        Button press = robot.lookup("#bench-press").query();
        assertTrue(press.isFocused());
        robot.interact(() -> console.bench().captureLength(BRIEF_S));
        type(robot, KeyCode.F12);
        await(() -> console.bench().state().get().speed().contains("rpm"));
        type(robot, KeyCode.G);
        assertTrue(console.bench().state().get().aimsGood());
        type(robot, KeyCode.G);
        type(robot, KeyCode.F12);
        await(() -> !console.bench().state().get().verdict().headline().isEmpty());
        type(robot, KeyCode.ALT, KeyCode.F);
        await(() -> !console.bench().state().get().running());
    }

    @Test
    void clickOnTheSketchPutsAPulleyThere(FxRobot robot) throws Exception {
        robot.interact(console.vehicles()::enterNew);
        await(() -> !robot.lookup(".sketch").queryAll().isEmpty());
        int before = console.drive().state().get().pulleys().size();
        Node sketch = robot.lookup(".sketch").query();
        robot.clickOn(robot.offset(sketch, -120, -90));
        assertEquals(before + 1, console.drive().state().get().pulleys().size());
        assertEquals("idler", console.drive().selected().get());
        robot.press(KeyCode.CONTROL, KeyCode.Z).release(KeyCode.Z, KeyCode.CONTROL);
        assertEquals(before, console.drive().state().get().pulleys().size());
    }

    @Test
    void historyIsReachedAndWrittenToByKeyboard(FxRobot robot) throws Exception {
        robot.press(KeyCode.CONTROL, KeyCode.DIGIT6).release(KeyCode.DIGIT6, KeyCode.CONTROL);
        await(() -> console.screen().get() == Screen.HISTORY);
        assertTrue(console.history().state().get().fleet().isEmpty());
        robot.interact(
                () -> {
                    console.vehicles().enterSimulated();
                    console.saveDrive();
                    console.go(Screen.HISTORY);
                });
        await(() -> console.history().state().get().unit().equals("ML-07"));
        TextField remark = robot.lookup("#remark").query();
        robot.interact(remark::requestFocus);
        robot.write("belt was wet");
        robot.press(KeyCode.ALT, KeyCode.N).release(KeyCode.N, KeyCode.ALT);
        await(() -> console.history().state().get().marks().size() == 1);
        assertTrue(console.history().state().get().marks().get(0).endsWith(", belt was wet"));
        assertEquals("", remark.getText());
    }

    @Test
    void everyControlHasWordsAtDoubleSize(FxRobot robot) {
        robot.interact(
                () -> {
                    console.vehicles().enterSimulated();
                    console.preferences().textScale().set(2.0);
                });
        WaitForAsyncUtils.waitForFxEvents();
        assertTrue(console.screen().get() == Screen.DRIVE);
        for (Node node : scene.getRoot().lookupAll(".button")) {
            if (node.isVisible() && node instanceof Button b && b.getStyleClass().size() < 4) {
                String words = b.getText() == null ? "" : b.getText();
                String name = b.getAccessibleText() == null ? words : b.getAccessibleText();
                assertFalse(name.isBlank(), b.toString());
            }
        }
        for (Node node : scene.getRoot().lookupAll(".text-field")) {
            String name = node.getAccessibleText();
            assertFalse(name == null || name.isBlank(), node.toString());
        }
        Labeled message = robot.lookup("#message").query();
        assertEquals(console.message().get(), message.getText());
    }

    @Test
    void theFirstVehicleIsEnteredFieldByFieldWithoutAMouse(FxRobot robot) throws Exception {
        robot.write("ML-99");
        type(robot, KeyCode.ENTER);
        await(() -> console.screen().get() == Screen.DRIVE);
        await(() -> robot.lookup("#unit").query().isFocused());
        assertEquals("ML-99", console.drive().state().get().unit());
        type(robot, KeyCode.ALT, KeyCode.A);
        await(() -> robot.lookup("#pulley-1").query().isFocused());
        type(robot, KeyCode.CONTROL, KeyCode.S);
        assertTrue(console.message().get().startsWith("Not saved yet. "), console.message().get());
        assertTrue(robot.lookup("#pulley-1").query().isFocused(), "the field is left");
    }

    @ParameterizedTest
    @ValueSource(doubles = {1, 2})
    void driveNeverScrollsSideways(double textScale, FxRobot robot) {
        robot.interact(
                () -> {
                    console.vehicles().enterSimulated();
                    console.preferences().textScale().set(textScale);
                    scene.getRoot().applyCss();
                    scene.getRoot().layout();
                });
        WaitForAsyncUtils.waitForFxEvents();
        int seen = 0;
        for (Node node : scene.getRoot().lookupAll(".scroll-pane")) {
            ScrollPane pane = (ScrollPane) node;
            double content = pane.getContent().getLayoutBounds().getWidth();
            double room = pane.getViewportBounds().getWidth();
            // Half a pixel for what is snapped to whole ones.
            assertTrue(content <= room + 0.5, content + " wide, room for " + room);
            seen++;
        }
        assertEquals(2, seen, "sketch and fields");
    }
}
