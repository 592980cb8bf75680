//! Nothing leaves the device: no request but to the page's own address, and none possible.

use crate::harness::{Chromium, Site};

#[tokio::test]
async fn only_the_pages_own_address_is_ever_asked() {
    let site = Site::serve();
    let browser = Chromium::start().await;
    browser.open(&site.origin()).await;
    browser.wait_until_kept().await;
    browser.open(&site.origin()).await;
    let requests = browser.requests().await;
    let own = |address: &String| address.starts_with(&site.origin()) || address.starts_with("data:");
    assert!(requests.iter().filter(|address| address.ends_with(".wasm")).count() >= 1, "{requests:#?}");
    assert!(requests.iter().all(own), "{requests:#?}");
    browser.finish().await;
}

#[tokio::test]
async fn the_policy_is_the_same_in_the_page_and_in_every_answer() {
    let site = Site::serve();
    let browser = Chromium::start().await;
    browser.open(&site.origin()).await;
    let policies = browser
        .run(
            "const stated = document.querySelector('meta[http-equiv=Content-Security-Policy]').content;
             const sent = async (path) => (await fetch(path)).headers.get('Content-Security-Policy');
             return [stated, await sent('./'), await sent('./sw.js')]",
        )
        .await;
    let stated = policies[0].as_str().expect("a policy");
    assert!(stated.starts_with("default-src 'none'") && !stated.contains("unsafe-inline"), "{stated}");
    assert!(policies[1] == stated && policies[2] == stated, "{policies:#}");
    browser.finish().await;
}

#[tokio::test]
async fn what_the_policy_forbids_is_refused() {
    let (site, elsewhere) = (Site::serve(), Site::serve());
    let browser = Chromium::start().await;
    browser.open(&site.origin()).await;
    let attempts = format!(
        "const refused = [];
         addEventListener('securitypolicyviolation', (event) => refused.push(event.effectiveDirective));
         await fetch('{}').catch(() => {{}});
         const inline = document.createElement('script');
         inline.textContent = 'document.title = \"run\"';
         document.body.append(inline);
         const picture = new Image();
         picture.src = '{}/icons/icon.svg';
         await new Promise((go) => setTimeout(go, 100));
         return refused.sort()",
        elsewhere.origin(),
        elsewhere.origin()
    );
    let refused = browser.run(&attempts).await;
    // By the header and by the page itself.
    let twice = ["connect-src", "connect-src", "img-src", "img-src", "script-src-elem", "script-src-elem"];
    assert_eq!(refused, serde_json::json!(twice));
    let errors = browser.errors().await;
    assert!(errors.len() >= twice.len(), "the console names each refusal: {errors:#?}");
    browser.finish().await;
}
