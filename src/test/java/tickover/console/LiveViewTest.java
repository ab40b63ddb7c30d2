package tickover.console;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.util.concurrent.Callable;
import java.util.concurrent.TimeUnit;
import javafx.scene.control.Button;
import javafx.scene.control.ScrollPane;
import javafx.scene.image.WritableImage;
import javafx.scene.input.KeyCode;
import javafx.stage.Stage;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.ExtendWith;
import org.junit.jupiter.api.io.TempDir;
import org.testfx.api.FxRobot;
import org.testfx.framework.junit5.ApplicationExtension;
import org.testfx.framework.junit5.Start;
import org.testfx.util.WaitForAsyncUtils;
import tickover.console.model.ConsoleModel;
import tickover.console.model.ConsoleOptions;
import tickover.console.model.DirectErrands;
import tickover.console.model.Screen;

/** The live screen, driven by keyboard without a display. */
@ExtendWith(ApplicationExtension.class)
class LiveViewTest {
    /** An empty strip has a middle line of one pixel; edges that are not whole blur it to two. */
    private static final int LINE_PIXELS = 2;

    private static final int NEWEST_PIXELS = 100;
    private static final int PATIENCE_S = 60;

    @TempDir static Path temp;
    private ConsoleModel console;

    @Start
    void open(Stage stage) {
        console =
                new ConsoleModel(
                        new ConsoleOptions(temp.resolve("data"), true), new DirectErrands());
        stage.setScene(new Shell(console).scene(1280, 800));
        stage.sizeToScene();
        stage.show();
        console.vehicles().enterSimulated();
        console.saveDrive();
    }

    @AfterEach
    void unplug(FxRobot robot) {
        robot.interact(console.round()::close);
    }

    private void await(Callable<Boolean> condition) throws Exception {
        WaitForAsyncUtils.waitFor(PATIENCE_S, TimeUnit.SECONDS, condition);
        WaitForAsyncUtils.waitForFxEvents();
    }

    private static void type(FxRobot robot, KeyCode key) {
        robot.press(key).release(key);
        WaitForAsyncUtils.waitForFxEvents();
    }

    @Test
    void aRoundIsStartedWatchedAndPointedAtByKeyboardAlone(FxRobot robot) throws Exception {
        robot.interact(() -> console.go(Screen.ROUND));
        type(robot, KeyCode.SPACE);
        await(() -> console.round().state().get().running());
        await(() -> robot.lookup(".bar").queryAll().size() >= 8);
        TraceStrip felt =
                robot.lookup(n -> n instanceof TraceStrip && n.getScene() != null).query();
        await(() -> filled(robot, felt) > LINE_PIXELS);
        robot.press(KeyCode.CONTROL, KeyCode.DIGIT4).release(KeyCode.DIGIT4, KeyCode.CONTROL);
        await(() -> console.screen().get() == Screen.LIVE);
        OrderFall fall = robot.lookup("#fall").query();
        await(fall::isFocused);
        await(() -> console.live().fall().rows() > 10 && fall.framesDrawn() > 5);
        type(robot, KeyCode.DOWN);
        type(robot, KeyCode.DOWN);
        String chosen = console.live().state().get().chosen();
        assertEquals("compressor", chosen);
        assertFalse(console.live().state().get().marks().isEmpty());
        type(robot, KeyCode.H);
        assertTrue(console.live().hearing().on().get());
        Button hear = robot.lookup("#hear").query();
        await(() -> hear.getText().startsWith("Silence"));
        type(robot, KeyCode.RIGHT);
        assertFitsItsPanel(robot);
        type(robot, KeyCode.H);
        assertFalse(console.live().hearing().on().get());
        type(robot, KeyCode.RIGHT);
        assertTrue(console.live().state().get().pointedOrders() > 0);
        String said = console.live().state().get().pointed().get(0);
        assertTrue(said.startsWith("Order "), said);
        await(() -> robot.lookup(l -> hasText(l, console)).tryQuery().isPresent());
        double reach = console.live().reachOrders().get();
        type(robot, KeyCode.MINUS);
        assertTrue(console.live().reachOrders().get() < reach);
        type(robot, KeyCode.K);
        assertTrue(console.live().showsKnocks().get());
        Button swap = robot.lookup("#swap").query();
        assertTrue(swap.getText().contains("moves"), swap.getText());
        type(robot, KeyCode.ESCAPE);
        assertEquals(0, console.live().state().get().pointedOrders());
        assertTrue(filledAfterLargerText(robot) > LINE_PIXELS, "the trace is gone");
    }

    /** What is heard and what is pointed at stand at once, and nothing scrolls. */
    private void assertFitsItsPanel(FxRobot robot) throws Exception {
        await(() -> !console.live().hearing().words().get().isEmpty());
        ScrollPane side = robot.lookup("#live-side").query();
        double content = side.getContent().getLayoutBounds().getHeight();
        double room = side.getViewportBounds().getHeight();
        assertTrue(content <= room + 0.5, content + " high, room for " + room);
    }

    /** No frame can come in between: all of it is one task of the screen's thread. */
    private int filledAfterLargerText(FxRobot robot) {
        TraceStrip strip =
                robot.lookup(n -> n instanceof TraceStrip && n.getScene() != null).query();
        int[] filled = {0};
        robot.interact(
                () -> {
                    console.preferences().textScale().set(1.25);
                    strip.getScene().getRoot().applyCss();
                    strip.getScene().getRoot().layout();
                    filled[0] = filled(strip);
                });
        return filled[0];
    }

    private static boolean hasText(javafx.scene.Node node, ConsoleModel console) {
        var pointed = console.live().state().get().pointed();
        return node instanceof javafx.scene.control.Label l
                && !pointed.isEmpty()
                && l.getText().equals(pointed.get(0));
    }

    private static int filled(FxRobot robot, TraceStrip trace) {
        int[] filled = {0};
        robot.interact(() -> filled[0] = filled(trace));
        return filled[0];
    }

    /** Pixels of the newest columns' best filled one that are not the ground. */
    private static int filled(TraceStrip trace) {
        WritableImage shot = trace.snapshot(null, null);
        int most = 0;
        int right = (int) shot.getWidth() - 20;
        for (int x = right - NEWEST_PIXELS; x < right; x++) {
            int ground = shot.getPixelReader().getArgb(x, 4);
            int count = 0;
            for (int y = 4; y < shot.getHeight() - 4; y++) {
                count += shot.getPixelReader().getArgb(x, y) == ground ? 0 : 1;
            }
            most = Math.max(most, count);
        }
        return most;
    }
}
