package dev.splicebook.shop;

import dev.splicebook.database.ConditionalOnNoDatabaseGiven;
import dev.splicebook.web.Caller;
import dev.splicebook.web.ProblemWriter;
import dev.splicebook.web.Problems;
import jakarta.servlet.DispatcherType;
import java.util.List;
import org.springdoc.core.utils.SpringDocUtils;
import org.springframework.context.annotation.Bean;
import org.springframework.context.annotation.Configuration;
import org.springframework.core.annotation.Order;
import org.springframework.http.HttpHeaders;
import org.springframework.security.config.annotation.web.builders.HttpSecurity;
import org.springframework.security.config.annotation.web.configurers.AbstractHttpConfigurer;
import org.springframework.security.config.http.SessionCreationPolicy;
import org.springframework.security.web.SecurityFilterChain;
import org.springframework.security.web.access.intercept.AuthorizationFilter;
import org.springframework.web.method.support.HandlerMethodArgumentResolver;
import org.springframework.web.servlet.config.annotation.WebMvcConfigurer;

/** What is open to all, and that everything else, known or not, needs a key. */
@Configuration(proxyBeanMethods = false)
class AccessConfiguration implements WebMvcConfigurer {

    private static final String[] OPEN_TO_ALL = {
        "/",
        "/actuator/health/**",
        "/problems/**",
        "/v3/api-docs/**",
        "/v3/api-docs.yaml",
        "/swagger-ui/**",
        "/swagger-ui.html",
    };

    static {
        SpringDocUtils.getConfig().addRequestWrapperToIgnore(Caller.class);
    }

    @Bean
    @ConditionalOnNoDatabaseGiven
    DemoKey demoKey() {
        return new DemoKey();
    }

    /** A chain of its own, so that a health probe never waits for a key to be looked up. */
    @Bean
    @Order(1)
    SecurityFilterChain openToAll(HttpSecurity http) {
        return stateless(http.securityMatcher(OPEN_TO_ALL))
                .authorizeHttpRequests(requests -> requests.anyRequest().permitAll())
                .build();
    }

    @Bean
    @Order(2)
    SecurityFilterChain withKey(HttpSecurity http, Access access) {
        return stateless(http)
                .authorizeHttpRequests(requests -> requests
                        // the answer to a failure is written in a second dispatch, which must not become a 401; where
                        // half
                        // an answer is on its way, the container includes it instead
                        .dispatcherTypeMatchers(DispatcherType.ERROR, DispatcherType.INCLUDE)
                        .permitAll()
                        .anyRequest()
                        .authenticated())
                .addFilterBefore(new BearerFilter(access), AuthorizationFilter.class)
                .exceptionHandling(handling ->
                        handling.authenticationEntryPoint((request, response, failure) -> ProblemWriter.write(
                                request,
                                response,
                                Problems.unauthorized(
                                        request.getHeader(HttpHeaders.AUTHORIZATION) == null
                                                ? "the request carries no key"
                                                : "the key is unknown or revoked, or not given as Bearer KEY"))))
                .build();
    }

    @Override
    public void addArgumentResolvers(List<HandlerMethodArgumentResolver> resolvers) {
        resolvers.add(new CallerArguments());
    }

    private static HttpSecurity stateless(HttpSecurity http) {
        return http.sessionManagement(sessions -> sessions.sessionCreationPolicy(SessionCreationPolicy.STATELESS))
                .requestCache(AbstractHttpConfigurer::disable)
                .csrf(AbstractHttpConfigurer::disable)
                .logout(AbstractHttpConfigurer::disable)
                .httpBasic(AbstractHttpConfigurer::disable)
                .formLogin(AbstractHttpConfigurer::disable);
    }
}
