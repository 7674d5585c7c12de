package dev.splicebook.shop;

import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.mockito.ArgumentMatchers.any;
import static org.mockito.ArgumentMatchers.eq;
import static org.mockito.Mockito.mock;
import static org.mockito.Mockito.never;
import static org.mockito.Mockito.verify;
import static org.mockito.Mockito.when;

import dev.splicebook.database.StartRefusedException;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.ObjectProvider;
import org.springframework.beans.factory.support.StaticListableBeanFactory;

class FirstKeyTest {

    private static final String LONG_ENOUGH = "k".repeat(FirstKey.SHORTEST);

    private final Access access = mock();

    @Test
    void opensTheFirstFirmWithTheGivenKey() {
        outsideTheDemo(LONG_ENOUGH).afterSingletonsInstantiated();

        verify(access).openFirst(any(), any(), eq(LONG_ENOUGH));
    }

    @Test
    void refusesAKeyBelowTheShortestWithoutSayingIt() {
        String tooShort = LONG_ENOUGH.substring(1);

        assertThatThrownBy(() -> outsideTheDemo(tooShort).afterSingletonsInstantiated())
                .isInstanceOf(StartRefusedException.class)
                .hasMessageContaining("19 characters")
                .hasMessageNotContaining(tooShort);
    }

    @Test
    void opensNothingWithoutAKey() {
        when(access.findFirstCaller()).thenReturn(Optional.empty());

        outsideTheDemo(" ").afterSingletonsInstantiated();

        verify(access, never()).openFirst(any(), any(), any());
    }

    private FirstKey outsideTheDemo(String given) {
        ObjectProvider<DemoKey> noDemo = new StaticListableBeanFactory().getBeanProvider(DemoKey.class);
        return new FirstKey(access, noDemo, given);
    }
}
